// The pictures: those about to be shown are decoded ahead, and only some are
// kept, so that a long film does not fill the memory of a phone.

const ahead = 10, keptMost = 32;
const kept = new Map(); // picture -> image, the one used last at the end
const screen2d = $("screen").getContext("2d");
let wanted = -1;

function picture(n) {
  let img = kept.get(n);
  if (img) {
    kept.delete(n);
  } else {
    img = new Image();
    img.src = "data:image/jpeg;base64," + $("p" + n).textContent;
    img.decode().then(() => {
      img.ready = true;
      if (wanted === n) draw(n, img);
    }, () => kept.delete(n));
  }
  kept.set(n, img);
  if (kept.size > keptMost) kept.delete(kept.keys().next().value);
  return img;
}

function draw(n, img) {
  screen2d.drawImage(img, 0, 0, film.width, film.height);
  $("screen").dataset.picture = n;
}

// Shows the picture of frame f. One that is not decoded yet comes when it is,
// unless another is wanted by then.
function showPicture(f) {
  const c = changeAt(f), n = film.changes[c][1];
  for (let k = Math.min(c + ahead, film.changes.length - 1); k > c; k--) picture(film.changes[k][1]);
  const img = picture(n);
  if (n === wanted) return;
  wanted = n;
  if (img.ready) draw(n, img);
}
