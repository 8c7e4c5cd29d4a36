/* Plans added up. */
#include "base/numbers.h"
#include "years/outlook.h"

#include <string.h>

bool
outlook_is_work(const struct outlook_line *line)
{
	return line->doer == DOER_STATION && (line->task != TASK_RENEW || line->refit);
}

struct outlook_sum
outlook_sum_of(const struct outlook *plan, size_t winter)
{
	struct outlook_sum sum = {0};
	bool all = winter == plan->winters;
	for (size_t i = 0; i < plan->trip_count; i++) {
		if (all || plan->trips[i].winter == winter) {
			sum.trips += plan->trips[i].minor;
		}
	}
	for (size_t i = 0; i < plan->line_count; i++) {
		const struct outlook_line *line = &plan->lines[i];
		if (!all && line->winter != winter) {
			continue;
		}
		sum.work += line->carriage_minor;
		bool bought = line->task == TASK_RENEW && !outlook_is_work(line);
		*(bought ? &sum.new_gear : &sum.work) += GREATER(line->minor, 0);
	}
	return sum;
}

int64_t
outlook_minor_of(const struct outlook *plan, size_t winter)
{
	struct outlook_sum sum = outlook_sum_of(plan, winter);
	return sum.trips + sum.work + sum.new_gear;
}

/* The share of a kind among those found; a new one where there is none. */
struct shares {
	struct outlook_share *items; /* in the arena */
	size_t count;
	size_t capacity;
};

static struct outlook_share *
share_of(struct shares *shares, const char *kind, struct arena *arena)
{
	for (size_t i = 0; i < shares->count; i++) {
		if (strcmp(shares->items[i].kind, kind) == 0) {
			return &shares->items[i];
		}
	}
	ARENA_ADD(arena, shares, (struct outlook_share){.kind = kind});
	return &shares->items[shares->count - 1];
}

static int
compare_shares(const void *left, const void *right)
{
	const struct outlook_share *a = left;
	const struct outlook_share *b = right;
	return a->minor != b->minor ? ORDER(b->minor, a->minor)
				    : strcmp(a->kind, b->kind);
}

static void
add_plan(const struct outlook_view *view, const struct outlook *plan,
    struct shares *shares, struct arena *arena)
{
	for (size_t i = 0; i < plan->line_count; i++) {
		const struct outlook_line *line = &plan->lines[i];
		struct outlook_share *share =
		    share_of(shares, view->inventory->items[line->item].kind, arena);
		share->minor += GREATER(line->minor, 0) + line->carriage_minor;
		share->works += outlook_is_work(line);
		share->renewals += line->task == TASK_RENEW && !outlook_is_work(line);
	}
}

void
outlook_shares(const struct outlook_view *view, struct arena *arena,
    struct outlook_share **out, size_t *count_out)
{
	struct shares shares = {0};
	for (size_t i = 0; i < view->count; i++) {
		add_plan(view, &view->plans[i].plan, &shares, arena);
	}
	ARRAY_SORT(shares.items, shares.count, compare_shares);
	while (shares.count > 0 && shares.items[shares.count - 1].minor == 0) {
		shares.count--;
	}
	*out = shares.items;
	*count_out = shares.count;
}

void
outlook_total_add(
    struct outlook_total *total, const struct named_outlook *plans, size_t count)
{
	if (total->plans == 0) {
		*total = (struct outlook_total){.last_year = -1, .proven = true};
	}
	for (size_t i = 0; i < count; i++) {
		const struct outlook *plan = &plans[i].plan;
		int last = plan->first_year + (int)plan->winters - 1;
		bool first = total->plans == 0;
		total->first_year = first ? plan->first_year
					  : LESSER(plan->first_year, total->first_year);
		total->last_year = first ? last : GREATER(last, total->last_year);
		total->minor += plan->minor;
		total->bound += plan->bound;
		total->when_due_minor += plan->when_due_minor;
		total->unpriced += plan->unpriced;
		total->supposed += plan->supposed;
		total->unknowns += plan->unknown_count;
		total->assumed += plan->assumed;
		total->gaps += plan->gap_count;
		total->proven = total->proven && plan->proven;
		total->all_year = total->all_year || plan->all_year;
		total->plans++;
	}
}

struct outlook_total
outlook_total_of(const struct named_outlook *plans, size_t count)
{
	struct outlook_total total = {0};
	outlook_total_add(&total, plans, count);
	return total;
}
