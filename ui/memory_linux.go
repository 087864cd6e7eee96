package ui

// #include <malloc.h>
//
// static void stillbeat_keep_memory(int most) {
// #ifdef __GLIBC__
// 	mallopt(M_MMAP_THRESHOLD, 32 << 20);
// 	mallopt(M_TRIM_THRESHOLD, most);
// 	mallopt(M_TOP_PAD, 16 << 20);
// #endif
// }
import "C"

// Each picture shown is a new texture of some megabytes. The C library gives
// memory of that size back to the system and asks for it again, cleared, many
// times a second, which took a sixth of the time of playing where textures lie
// in main memory; here it keeps some.
func init() { C.stillbeat_keep_memory(128 << 20) }
