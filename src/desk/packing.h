/* What is packed in its bag, ready to be handed in. */
#ifndef BECKET_DESK_PACKING_H
#define BECKET_DESK_PACKING_H

#include "desk/desk.h"

/* A tick is of one winter: an older one than this counts no more. */
enum { PACKED_DAYS = 300 };

struct pack_request {
	struct word_list in;  /* tags of what is packed now */
	struct word_list out; /* of what is not */
};

/* Keeps what is packed; what is so already stays untouched. Gear that is handed in is
 * unpacked by that (desk_land). FAULT_INPUT for a tag that is not in the book. */
MUST_CHECK bool desk_pack(
    struct desk *desk, const struct pack_request *request, struct fault *fault);

/* The tags of what is packed, in the desk's arena. */
MUST_CHECK bool desk_packed(struct desk *desk, const char *const **tags_out,
    size_t *count_out, struct fault *fault);

#endif
