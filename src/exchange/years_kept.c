/* The coming years as JSON, of plans that come some at a time: each list of the answer is kept in
 * runs, and put into its frame once all plans are there. */
#include "exchange/answer_parts.h"
#include "exchange/answers.h"

#include <stdlib.h>

/* So many bits of a key, below those of the list, are the place of a plan among all. */
enum { PLACE_BITS = 32 };

/* What stands between elements. */
#define BETWEEN ", "

/* Keeps the elements of a list, with BETWEEN before the first. */
static void
keep_list(struct years_kept *kept, int list, size_t place, struct json array)
{
	SCOPED_TEXT words = {0};
	text_add_byte(&words, BETWEEN[0]);
	json_write(array, &words);
	words.bytes[1] = BETWEEN[1];
	text_cut(&words, words.length - 1);
	if (words.length > sizeof BETWEEN - 1) {
		runs_add_long(&kept->runs,
		    &(struct run_piece){((int64_t)list << PLACE_BITS) + (int64_t)place,
			text_string(&words), words.length, NULL});
	}
}

/* Whether a plan has a year, and as which of its winters. */
static bool
has_year(const struct outlook *plan, int year, size_t *winter_out)
{
	*winter_out = (size_t)(year - plan->first_year);
	return year >= plan->first_year && *winter_out < plan->winters;
}

/* Keeps the trips of all plans in a year, or else what is done then. */
static void
keep_list_of_year(const struct outlook_view *view, const size_t *places, int year,
    bool trips, struct years_kept *kept)
{
	size_t winter = 0;
	for (size_t i = 0; i < view->count; i++) {
		const struct outlook *plan = &view->plans[i].plan;
		if (has_year(plan, year, &winter)) {
			keep_list(kept, 2 * year + !trips, places == NULL ? i : places[i],
			    trips ? years_trips(view, plan, winter)
				  : years_done(view, plan, winter));
		}
	}
}

/* Keeps what all plans do in a year, and the money of it. */
static void
keep_year(const struct outlook_view *view, const size_t *places, int year,
    struct years_kept *kept)
{
	struct year_kept sum = {.year = year};
	size_t winter = 0;
	keep_list_of_year(view, places, year, true, kept);
	keep_list_of_year(view, places, year, false, kept);
	for (size_t i = 0; i < view->count; i++) {
		const struct outlook *plan = &view->plans[i].plan;
		sum.minor +=
		    has_year(plan, year, &winter) ? outlook_minor_of(plan, winter) : 0;
	}
	struct year_kept *known = years_kept_of(kept, year);
	if (known == NULL) {
		ARRAY_ADD(kept, sum);
	} else {
		known->minor += sum.minor;
	}
}

void
answer_years_keep(
    const struct outlook_view *view, const size_t *places, struct years_kept *kept)
{
	struct outlook_total total = outlook_total_of(view->plans, view->count);
	for (int year = total.first_year; year <= total.last_year; year++) {
		keep_year(view, places, year, kept);
	}
	for (int list = YEARS_LISTS; list <= YEARS_CLASHES; list++) {
		for (size_t i = 0; i < view->count; i++) {
			keep_list(kept, list, places == NULL ? i : places[i],
			    years_list(view, &view->plans[i], list));
		}
	}
	runs_end(&kept->runs);
	outlook_total_add(&kept->total, view->plans, view->count);
	text_reset(&kept->currency);
	text_add(&kept->currency, view->currency);
}

void
years_kept_clear(struct years_kept *kept)
{
	runs_clear(&kept->runs);
	text_clear(&kept->currency);
	free(kept->items);
	*kept = (struct years_kept){0};
}

/* The answer being written. */
struct years_filling {
	struct frame_filling frame;
	const struct years_kept *kept;
	int list; /* the number of the list at hand; 0 for none yet */
};

/* Begins the next list. */
static void
begin_list(struct years_filling *filling)
{
	const struct outlook_total *total = &filling->kept->total;
	int last = 2 * total->last_year + 1;
	frame_begin_list(&filling->frame);
	filling->list = filling->list == 0 && total->plans > 0 ? 2 * total->first_year
			: filling->list == last                ? YEARS_LISTS
							       : filling->list + 1;
}

static void
fill(const struct run_piece *piece, void *of)
{
	struct years_filling *filling = of;
	struct text *out = filling->frame.out;
	int list = (int)(piece->key >> PLACE_BITS);
	bool one = filling->kept->total.plans == 1;
	if (one ? list == YEARS_PLANS : list > YEARS_PLANS) {
		return;
	}
	while (filling->list < list) {
		begin_list(filling);
	}
	size_t between = filling->frame.any ? 0 : sizeof BETWEEN - 1;
	text_add_bytes(out, piece->bytes + between, piece->length - between);
	text_hand_on(out);
	filling->frame.any = true;
}

/* Adds the object of what was kept. */
static bool
write_kept(const struct years_kept *kept, struct text *out, struct fault *fault)
{
	SCOPED_TEXT frame = {0};
	json_write(years_frame(kept), &frame);
	struct years_filling filling = {
	    .frame = {.left = text_string(&frame), .out = out}, .kept = kept};
	if (!runs_merge(&kept->runs, fill, &filling, fault)) {
		return false;
	}
	text_add(out, filling.frame.left);
	return true;
}

bool
answer_years_kept(const struct years_kept *kept, struct text *out, struct fault *fault)
{
	if (!write_kept(kept, out, fault)) {
		return false;
	}
	text_add_byte(out, '\n');
	return true;
}

bool
answer_years_compared(const struct years_kept *as_is, const struct years_kept *changed,
    struct text *out, struct fault *fault)
{
	SCOPED_TEXT frame = {0};
	json_write(
	    years_compared_frame(changed->total.minor - as_is->total.minor), &frame);
	const char *first = frame_next_list(text_string(&frame));
	const char *second = frame_next_list(first + 1);
	text_add_bytes(out, text_string(&frame), (size_t)(first - text_string(&frame)));
	if (!write_kept(as_is, out, fault)) {
		return false;
	}
	text_add_bytes(out, first + 2, (size_t)(second - first) - 2);
	if (!write_kept(changed, out, fault)) {
		return false;
	}
	text_add_format(out, "%s\n", second + 2);
	return true;
}
