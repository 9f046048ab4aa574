// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/bytes.h"

#include <string.h>

void tw_put_u16(tw_sink *sink, uint16_t value)
{
    const char bytes[2] = { (char)(value & 255), (char)(value >> 8) };
    tw_put(sink, bytes, sizeof bytes);
}

void tw_put_u32(tw_sink *sink, uint32_t value)
{
    const char bytes[4] = { (char)(value & 255), (char)(value >> 8 & 255), (char)(value >> 16 & 255), (char)(value >> 24 & 255) };
    tw_put(sink, bytes, sizeof bytes);
}

void tw_put_float(tw_sink *sink, double value)
{
    float single = (float)(value == 0.0 ? 0.0 : value);
    uint32_t bits;
    memcpy(&bits, &single, sizeof bits);
    tw_put_u32(sink, bits);
}

/* Three bytes are four digits of six bits; a last group of one or two bytes gives two or three digits and padding. */
static void put_group(tw_sink *sink, const unsigned char *bytes, size_t count)
{
    static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    uint32_t bits = (uint32_t)bytes[0] << 16 | (count > 1 ? (uint32_t)bytes[1] << 8 : 0) | (count > 2 ? bytes[2] : 0);
    const char text[4] = { digits[bits >> 18], digits[bits >> 12 & 63], count > 1 ? digits[bits >> 6 & 63] : '=',
        count > 2 ? digits[bits & 63] : '=' };
    tw_put(sink, text, sizeof text);
}

void tw_put_base64(tw_sink *sink, tw_text bytes)
{
    for (size_t i = 0; i < bytes.length; i += 3)
        put_group(sink, (const unsigned char *)bytes.bytes + i, bytes.length - i < 3 ? bytes.length - i : 3);
}
