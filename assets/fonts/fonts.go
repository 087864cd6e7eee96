// Package fonts has the letters that are drawn on pictures. Noto Sans is under
// the SIL Open Font License, Droid Sans Fallback under the Apache License; both
// lie beside the files, which are as Debian packs them (fonts-noto-core
// 20201225, fonts-droid-fallback 6.0.1r16).
package fonts

import (
	"embed"
	"maps"
	"slices"
)

// Files holds the fonts by file name.
//
//go:embed *.ttf
var Files embed.FS

// Usual is the font of Latin, Greek and Cyrillic.
const Usual = "NotoSans-Regular.ttf"

// Others are the fonts that are asked for what neither the usual one nor that of
// a script has: signs, ideographs, then those of the scripts.
var Others = append([]string{
	"NotoSansSymbols-Regular.ttf",
	"NotoSansSymbols2-Regular.ttf",
	"DroidSansFallback.ttf", // Chinese, Japanese, Korean
}, slices.Sorted(maps.Values(ByScript))...)

// ByScript names the font of each script that has one of its own, by its code
// of ISO 15924.
var ByScript = map[string]string{
	"Arab": "NotoSansArabic-Regular.ttf",
	"Armn": "NotoSansArmenian-Regular.ttf",
	"Beng": "NotoSansBengali-Regular.ttf",
	"Deva": "NotoSansDevanagari-Regular.ttf",
	"Ethi": "NotoSansEthiopic-Regular.ttf",
	"Geor": "NotoSansGeorgian-Regular.ttf",
	"Gujr": "NotoSansGujarati-Regular.ttf",
	"Guru": "NotoSansGurmukhi-Regular.ttf",
	"Hebr": "NotoSansHebrew-Regular.ttf",
	"Khmr": "NotoSansKhmer-Regular.ttf",
	"Knda": "NotoSansKannada-Regular.ttf",
	"Laoo": "NotoSansLao-Regular.ttf",
	"Mlym": "NotoSansMalayalam-Regular.ttf",
	"Mymr": "NotoSansMyanmar-Regular.ttf",
	"Sinh": "NotoSansSinhala-Regular.ttf",
	"Taml": "NotoSansTamil-Regular.ttf",
	"Telu": "NotoSansTelugu-Regular.ttf",
	"Thai": "NotoSansThai-Regular.ttf",
}
