// The part of OpenH264's C interface (version 2.1) that a single stream needs:
// the library comes with a Go module whose own interface sets no quantiser.
#include <stdbool.h>

typedef struct {
	int mode;
	unsigned count, macroblocks[35], bytes;
} slicing;

typedef struct {
	int width, height;
	float fps;
	int bit_rate, max_bit_rate;
	int profile, level, qp; // qp is the quantiser when rate control is off
	slicing slices;
	bool signal;
	unsigned char format;
	bool full_range, colour;
	unsigned char primaries, transfer, matrix;
	bool aspect;
	int aspect_kind;
	unsigned short aspect_width, aspect_height;
} spatial_layer;

typedef struct {
	int usage, width, height, bit_rate, rate_control;
	float fps;
	int temporal_layers, spatial_layers;
	spatial_layer layers[4];
	int complexity;
	unsigned key_period;
	int references, id_strategy;
	bool prefix, ssei, simulcast;
	int padding, entropy_coding;
	bool skip_frames;
	int max_bit_rate, max_qp, min_qp;
	unsigned max_nal;
	bool long_term;
	int long_term_count;
	unsigned long_term_period;
	unsigned short threads;
	bool balancing;
	int filter_off, filter_alpha, filter_beta;
	bool denoise, background, adaptive, crop, scene_change, lossless_link;
} encoder_params;

typedef struct {
	unsigned char temporal, spatial, quality;
	int frame_type;
	unsigned char layer_type;
	int sub_sequence, nals, *nal_bytes;
	unsigned char *data;
} coded_layer;

typedef struct {
	int layers;
	coded_layer layer[128];
	int frame_type, bytes;
	long long time;
} coded_frame;

typedef struct {
	int format, stride[4];
	unsigned char *data[4];
	int width, height;
	long long time;
} source_picture;

typedef const struct encoder_calls *encoder;

struct encoder_calls {
	int (*init)(encoder *, const void *);
	int (*init_ext)(encoder *, const encoder_params *);
	int (*defaults)(encoder *, encoder_params *);
	int (*uninit)(encoder *);
	int (*encode)(encoder *, const source_picture *, coded_frame *);
	int (*parameter_sets)(encoder *, coded_frame *);
	int (*force_key)(encoder *, bool);
	int (*set_option)(encoder *, int, void *);
	int (*get_option)(encoder *, int, void *);
};

int WelsCreateSVCEncoder(encoder **);
void WelsDestroySVCEncoder(encoder *);

encoder *film_encoder_open(int width, int height, float fps, int qp);
void film_encoder_close(encoder *e);
int film_encoder_encode(encoder *e, bool key, int width, int height, void *y, void *cb, void *cr,
	int y_stride, int c_stride, coded_frame *out);
