#include "dates/spans.h"

struct spans
spans_always(void)
{
	static const struct span ALWAYS = {DAY_NONE, DAY_NEVER};
	return (struct spans){&ALWAYS, 1};
}

void
spans_one(struct arena *arena, struct span span, struct spans *out)
{
	if (span.last < span.first) {
		*out = (struct spans){0};
		return;
	}
	struct span *items = arena_alloc(arena, sizeof *items);
	*items = span;
	*out = (struct spans){items, 1};
}

void
spans_after(struct arena *arena, day_t day, struct spans *out)
{
	*out = (struct spans){0};
	if (day < DAY_NEVER) {
		spans_one(arena, (struct span){day + 1, DAY_NEVER}, out);
	}
}

static bool
is_always(struct spans spans)
{
	return spans.count == 1 && spans.items[0].first == DAY_NONE &&
	       spans.items[0].last == DAY_NEVER;
}

void
spans_both(struct arena *arena, struct spans a, struct spans b, struct spans *out)
{
	if (is_always(a) || is_always(b)) {
		*out = is_always(a) ? b : a;
		return;
	}
	struct span *items = arena_alloc(arena, (a.count + b.count + 1) * sizeof *items);
	size_t count = 0;
	for (size_t i = 0, j = 0; i < a.count && j < b.count;) {
		struct span common = {day_max(a.items[i].first, b.items[j].first),
		    day_min(a.items[i].last, b.items[j].last)};
		if (common.first <= common.last) {
			items[count++] = common;
		}
		if (a.items[i].last < b.items[j].last) {
			i++;
		} else {
			j++;
		}
	}
	*out = (struct spans){items, count};
}

/* True when the next span begins inside `span` or on the day after it. */
static bool
touches(struct span span, struct span next)
{
	return span.last == DAY_NEVER || next.first <= span.last + 1;
}

void
spans_either(struct arena *arena, struct spans a, struct spans b, struct spans *out)
{
	if (a.count == 0 || b.count == 0) {
		*out = a.count == 0 ? b : a;
		return;
	}
	struct span *items = arena_alloc(arena, (a.count + b.count + 1) * sizeof *items);
	size_t count = 0;
	for (size_t i = 0, j = 0; i < a.count || j < b.count;) {
		bool from_a =
		    j == b.count || (i < a.count && a.items[i].first <= b.items[j].first);
		struct span next = from_a ? a.items[i++] : b.items[j++];
		if (count > 0 && touches(items[count - 1], next)) {
			items[count - 1].last = day_max(items[count - 1].last, next.last);
		} else {
			items[count++] = next;
		}
	}
	*out = (struct spans){items, count};
}

/* All days outside the set. */
static void
spans_outside(struct arena *arena, struct spans a, struct spans *out)
{
	struct span *items = arena_alloc(arena, (a.count + 1) * sizeof *items);
	size_t count = 0;
	day_t start = DAY_NONE;
	bool open = true;
	for (size_t i = 0; i < a.count && open; i++) {
		if (a.items[i].first > start) {
			items[count++] = (struct span){start, a.items[i].first - 1};
		}
		open = a.items[i].last != DAY_NEVER;
		start = open ? a.items[i].last + 1 : DAY_NEVER;
	}
	if (open) {
		items[count++] = (struct span){start, DAY_NEVER};
	}
	*out = (struct spans){items, count};
}

void
spans_except(struct arena *arena, struct spans a, struct spans b, struct spans *out)
{
	struct spans outside = {0};
	spans_outside(arena, b, &outside);
	spans_both(arena, a, outside, out);
}

const struct span *
spans_from(struct spans spans, day_t day)
{
	for (size_t i = 0; i < spans.count; i++) {
		if (spans.items[i].last >= day) {
			return &spans.items[i];
		}
	}
	return NULL;
}

bool
spans_have(struct spans spans, day_t day)
{
	const struct span *span = spans_from(spans, day);
	return span != NULL && span->first <= day;
}
