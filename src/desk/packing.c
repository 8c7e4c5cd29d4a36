#include "desk/packing.h"

#include "base/text.h"
#include "book/putting.h"
#include "desk/inside.h"

bool
desk_packed(struct desk *desk, const char *const **tags_out, size_t *count_out,
    struct fault *fault)
{
	return desk_book(desk, fault) &&
	       book_load_packed(desk->book, desk->today - PACKED_DAYS, &desk->arena,
		   tags_out, count_out, fault);
}

/* Tags whose tick changes. */
struct packing {
	const struct pack_request *request;
	struct word_list in;
	struct word_list out;
};

/* Those of some tags that are packed, or are not. */
static bool
changed(struct desk *desk, const struct word_list *tags, const char *const *packed,
    size_t count, bool is, struct word_list *out, struct fault *fault)
{
	for (size_t i = 0; i < tags->count; i++) {
		size_t item = 0;
		if (!desk_find_tag(desk, tags->items[i], &item, fault)) {
			return false;
		}
		if (words_have(packed, count, tags->items[i]) == is) {
			ARENA_ADD(&desk->arena, out, tags->items[i]);
		}
	}
	return true;
}

static bool
plan(struct desk *desk, void *act, struct fault *fault)
{
	struct packing *packing = act;
	const char *const *packed = NULL;
	size_t count = 0;
	packing->in = (struct word_list){0};
	packing->out = (struct word_list){0};
	return desk_packed(desk, &packed, &count, fault) &&
	       changed(desk, &packing->request->in, packed, count, false, &packing->in,
		   fault) &&
	       changed(desk, &packing->request->out, packed, count, true, &packing->out,
		   fault);
}

static bool
put(struct desk *desk, const struct word_list *tags, day_t on, struct fault *fault)
{
	for (size_t i = 0; i < tags->count; i++) {
		if (!book_put_packed(desk->book, tags->items[i], on, fault)) {
			return false;
		}
	}
	return true;
}

static bool
write(struct desk *desk, void *act, struct fault *fault)
{
	const struct packing *packing = act;
	return put(desk, &packing->in, desk->today, fault) &&
	       put(desk, &packing->out, DAY_NONE, fault);
}

bool
desk_pack(struct desk *desk, const struct pack_request *request, struct fault *fault)
{
	struct packing packing = {.request = request};
	return act_run(desk, "packing", plan, write, &packing, fault);
}
