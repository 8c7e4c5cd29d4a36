/* Random gear and its boat, for tests of the engine. */
#ifndef BECKET_TEST_DRAW_ITEM_H
#define BECKET_TEST_DRAW_ITEM_H

#include "draw.h"
#include "scene.h"

/* The scene's one item, of one of these kinds, with any dates on its label or none. */
static inline struct item *
draw_item(
    struct scene *scene, unsigned *seed, const char *const *kinds, unsigned kind_count)
{
	scene->item_count = 0;
	struct item *item = scene_item(scene, kinds[draw(seed, kind_count)]);
	item->made = draw_stamp(seed, 2008, 19);
	item->packed = draw_stamp(seed, 2012, 15);
	item->bought = draw_stamp(seed, 2012, 15);
	item->fitted = draw_stamp(seed, 2018, 9);
	item->expires = draw_stamp(seed, 2025, 8);
	return item;
}

/* Fewer than `most` changes of her use, to and fro, from the first day of a year on. */
static inline void
draw_uses(struct scene *scene, unsigned *seed, unsigned most, int first_year)
{
	scene->vessel.period_count = 1 + draw(seed, most);
	day_t from = day_from_civil(first_year, 1, 1);
	for (size_t i = 1; i < scene->vessel.period_count; i++) {
		bool own = scene->periods[i - 1].use == USE_PRIVATE;
		from += 1 + (day_t)draw(seed, 1200);
		scene->periods[i] = (struct period){.from = from,
		    .use = own ? USE_COMMERCIAL : USE_PRIVATE,
		    .area = "",
		    .says = SAYS_USE};
	}
}

#endif
