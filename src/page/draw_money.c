/* Money by winter: new gear above work at stations above trips. */
#include "page/draw.h"

enum {
	BASE = 190,
	HIGHEST = 164,
	YEAR_WORDS = 208,
	HEIGHT = 214,
	FEW = 6, /* so many bars have room for all their words on a phone */
};

static const struct stroke NEW_GEAR = {"buffline", "2", NULL};
static const struct stroke WORK = {NULL, "1.5", NULL};
static const struct stroke GROUND = {"line", "2", NULL};

static int64_t
whole_of(const struct money_bar *bar)
{
	return bar->new_gear + bar->work + bar->trips;
}

/* How high an amount stands above the ground. */
static int
height_of(int64_t minor, int64_t most)
{
	return most <= 0 ? 0 : (int)((minor * HIGHEST + most / 2) / most);
}

/* The hatch of work in a frame of ink. */
static void
draw_work(struct markup *markup, struct reach across, struct reach down)
{
	if (down.to > down.from) {
		draw_area(markup, "#work", NULL, across, down);
		draw_area(markup, "line", &WORK, across, down);
	}
}

static void
draw_bar(struct markup *markup, const struct money_bar *bar, int64_t most,
    struct reach across, bool spare)
{
	int trips = BASE - height_of(bar->trips, most);
	int work = BASE - height_of(bar->trips + bar->work, most);
	int top = BASE - height_of(whole_of(bar), most);
	int middle = (across.from + across.to) / 2;
	SCOPED_TEXT winter = {0};
	if (top < work) {
		draw_area(markup, "buff", &NEW_GEAR, across, (struct reach){top, work});
	}
	draw_work(markup, across, (struct reach){work, trips});
	if (trips < BASE) {
		draw_area(markup, "inkfill", NULL, across, (struct reach){trips, BASE});
	}
	draw_label(markup,
	    &(struct label){spare ? "b alt2" : "b", middle, 0, top - 6, SIDE_MIDDLE},
	    bar->sum);
	text_add_format(&winter, "%d", bar->winter);
	draw_label(markup,
	    &(struct label){spare ? "alt2" : NULL, middle, 0, YEAR_WORDS, SIDE_MIDDLE},
	    text_string(&winter));
}

static void
draw_key(struct markup *markup)
{
	struct reach sign = {300, 9700};
	markup_begin_class(markup, "figcaption", "key");
	begin_sign(markup);
	draw_area(markup, "buff", &NEW_GEAR, sign, (struct reach){2, 16});
	end_sign(markup, "new gear");
	begin_sign(markup);
	draw_work(markup, sign, (struct reach){2, 16});
	end_sign(markup, "work at stations");
	begin_sign(markup);
	draw_area(markup, "inkfill", NULL, sign, (struct reach){2, 16});
	end_sign(markup, "trips");
	markup_end(markup);
}

void
draw_money(
    struct markup *markup, const struct money_bar *bars, size_t count, const char *label)
{
	int64_t most = 0;
	for (size_t i = 0; i < count; i++) {
		most = whole_of(&bars[i]) > most ? whole_of(&bars[i]) : most;
	}
	begin_drawing(markup, HEIGHT, label);
	for (size_t i = 0; i < count; i++) {
		int room = WHOLE / (int)count;
		int left = (int)i * WHOLE / (int)count;
		draw_bar(markup, &bars[i], most,
		    (struct reach){left + room * 14 / 100, left + room * 86 / 100},
		    count > FEW && i % 2 == 1);
	}
	draw_line(markup, &GROUND, (struct reach){0, WHOLE}, (struct reach){BASE, BASE});
	markup_end(markup);
	draw_key(markup);
}
