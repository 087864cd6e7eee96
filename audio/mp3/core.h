// What is used of minimp3, declared here: its code comes in with the Go module
// that wraps it, whose own functions decode whole streams only.
#include <stdint.h>

typedef struct {
	int frame_bytes, frame_offset, channels, hz, layer, bitrate_kbps;
} mp3dec_frame_info_t;

typedef struct mp3dec mp3dec_t;

void mp3dec_init(mp3dec_t *dec);
int mp3dec_decode_frame(mp3dec_t *dec, const uint8_t *mp3, int mp3_bytes, int16_t *pcm, mp3dec_frame_info_t *info);
