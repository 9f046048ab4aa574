// SPDX-License-Identifier: GPL-3.0-or-later
/* words_json: the words that forms need, from the tables by which texts are read. */
#ifndef TW_WORDS_JSON_H
#define TW_WORDS_JSON_H

#include "base/base.h"

/// {"joints", "profiles": [{"kind", "meaning", "keys"}], "pieces", "job": [keys], "designs": [{"kind", "title", "meaning"}],
/// "timbers", "figures", "units": [texts]}. A key is {"key", "kind", "meaning", "required", "choices", "otherwise", "example"};
/// its kind is "text", "length", "lengths", "angle", "number", "count", "yes or no", "word", "piece", "cutter", "follower" or
/// "figures"; choices is null where it is no word out of a list. Fails as the sink fails.
void tw_words_json_put(tw_sink *sink);

#endif
