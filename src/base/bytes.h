// SPDX-License-Identifier: GPL-3.0-or-later
/* bytes: numbers as bytes, the least significant first, and bytes as text in base64. */
#ifndef TW_BYTES_H
#define TW_BYTES_H

#include "base/base.h"

void tw_put_u16(tw_sink *sink, uint16_t value);
void tw_put_u32(tw_sink *sink, uint32_t value);
/// As a float of 32 bits (IEEE 754); -0 is written as 0.
void tw_put_float(tw_sink *sink, double value);
/// Base64 (RFC 4648 section 4): with + and /, padded with =, no line breaks.
void tw_put_base64(tw_sink *sink, tw_text bytes);

#endif
