#include "cli/gear_words.h"

#include "report/tags.h"

void
add_tags(struct text *out, const struct gear_outcome *done)
{
	struct tag_list list = {.out = out};
	for (size_t i = 0; i < done->count; i++) {
		tag_list_add(&list, done->tags[i]);
	}
	tag_list_end(&list);
}

void
add_gear(struct text *out, const struct gear_outcome *done)
{
	size_t others = done->plan.count;
	add_tags(out, done);
	for (size_t i = 0; i < done->plan.count; i++) {
		for (size_t j = 0; j < done->count; j++) {
			others -= done->plan.items[i].item == done->items[j] ? 1 : 0;
		}
	}
	if (others > 0) {
		text_add_format(out, " and %zu part%s", others, others == 1 ? "" : "s");
	}
}
