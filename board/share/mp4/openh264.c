#include "openh264.h"

#include <string.h>

enum {
	option_trace_level = 25,
	rate_control_off = -1,
	format_i420 = 23,
	default_qp = 26,
	default_max_qp = 51,
};

// default_params reads the library's defaults and makes sure that it lays its
// parameters out as the header says: known values stand where they should and
// nothing was written behind the end.
static bool default_params(encoder *e, encoder_params *p) {
	struct {
		encoder_params params;
		unsigned char guard[1024];
	} room;
	memset(&room, 0xa5, sizeof room);
	if ((*e)->defaults(e, &room.params) != 0)
		return false;
	for (size_t i = 0; i < sizeof room.guard; i++)
		if (room.guard[i] != 0xa5)
			return false;
	*p = room.params;
	return p->layers[0].qp == default_qp && p->max_qp == default_max_qp && p->min_qp == 0 &&
		p->spatial_layers == 1 && p->temporal_layers == 1 && p->threads == 1 && p->crop;
}

// film_encoder_open starts an encoder of one layer, one slice and one thread that
// codes everything with one quantiser. It returns NULL if that fails.
encoder *film_encoder_open(int width, int height, float fps, int qp) {
	encoder *e = NULL;
	int quiet = 0;
	encoder_params p;
	if (WelsCreateSVCEncoder(&e) != 0 || e == NULL)
		return NULL;
	(*e)->set_option(e, option_trace_level, &quiet);
	if (!default_params(e, &p)) {
		WelsDestroySVCEncoder(e);
		return NULL;
	}
	p.width = p.layers[0].width = width;
	p.height = p.layers[0].height = height;
	p.fps = p.layers[0].fps = fps;
	p.rate_control = rate_control_off;
	p.layers[0].qp = qp;
	p.skip_frames = false;
	p.key_period = 0; // key pictures when asked
	p.scene_change = false;
	if ((*e)->init_ext(e, &p) != 0) {
		WelsDestroySVCEncoder(e);
		return NULL;
	}
	return e;
}

void film_encoder_close(encoder *e) {
	(*e)->uninit(e);
	WelsDestroySVCEncoder(e);
}

// film_encoder_encode codes one picture. What out points to is good until the next call.
int film_encoder_encode(encoder *e, bool key, int width, int height, void *y, void *cb, void *cr,
	int y_stride, int c_stride, coded_frame *out) {
	source_picture pic = {
		.format = format_i420, .width = width, .height = height,
		.stride = {y_stride, c_stride, c_stride}, .data = {y, cb, cr},
	};
	if (key) {
		int err = (*e)->force_key(e, true);
		if (err != 0)
			return err;
	}
	return (*e)->encode(e, &pic, out);
}
