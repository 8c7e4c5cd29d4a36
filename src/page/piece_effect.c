/* What an act changes, by looking at a piece before and after it. */
#include "page/pieces.h"
#include "report/words.h"

#include <string.h>

/* One task of a piece; NULL when no rule asks for it, or it will never fall due. */
static const struct obligation *
task_of(const struct obligation *all, size_t count, enum task task)
{
	for (size_t i = 0; i < count; i++) {
		if (all[i].task == task && !obligation_is_idle(&all[i])) {
			return &all[i];
		}
	}
	return NULL;
}

static void
add_standing_of(const struct obligation *obligation, day_t today, struct text *out)
{
	bool dated = obligation->due != DAY_NONE && obligation->due != DAY_NEVER;
	const struct standing_now standing = {
	    obligation->state, obligation->due, obligation->good_through, ""};
	if (dated) {
		text_add(out, "due ");
		add_day(obligation->due, "", out);
		text_add(out, ", ");
	}
	add_state_words(&standing, today, out);
}

static bool
stand_alike(const struct obligation *a, const struct obligation *b)
{
	return a == NULL || b == NULL ? a == b
				      : a->due == b->due && a->state == b->state &&
					    a->good_through == b->good_through;
}

static void
add_task_change(const char *tag, enum task task, const struct obligation *was,
    const struct obligation *is, day_t today, struct text *out)
{
	if (stand_alike(was, is)) {
		return;
	}
	text_add_format(out, "%s: %s ", tag, task_noun(task));
	if (is == NULL) {
		text_add(out, "falls due no more");
	} else {
		add_standing_of(is, today, out);
	}
	if (was != NULL) {
		text_add(out, "; until now ");
		add_standing_of(was, today, out);
	}
	text_add(out, "\n");
}

/* A value that changed. */
static void
add_value_changes(const char *tag, const struct item_change *was,
    const struct item_change *is, const char *currency, struct text *out)
{
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		const struct field *field = &ITEM_FIELDS[i];
		if (i == FIELD_TAG || field_same(field, was, is)) {
			continue;
		}
		text_add_format(out, "%s: %s ", tag,
		    field->label == NULL ? field->name : field->label);
		text_add(out, field_is_empty(field, is) ? "not known" : "");
		field_add_words(field, is, currency, out);
		if (!field_is_empty(field, was)) {
			text_add(out, "; until now ");
			field_add_words(field, was, currency, out);
		}
		text_add(out, "\n");
	}
}

static void
add_records(
    const char *tag, const struct item *was, const struct item *is, struct text *out)
{
	char on[STAMP_TEXT_SIZE];
	for (size_t i = 0; i < is->record_count; i++) {
		bool known = false;
		for (size_t j = 0; j < was->record_count; j++) {
			known = known || record_same(&was->records[j], &is->records[i]);
		}
		if (!known) {
			text_add_format(out, "%s: %s of %s is written down\n", tag,
			    record_noun(&is->records[i]),
			    stamp_words(is->records[i].on, on));
		}
	}
}

static void
add_new(struct desk *after, size_t item, struct text *out)
{
	const struct inventory *inventory = &after->contents.inventory;
	struct first_due first;
	text_add_format(out, "%s, ", inventory->items[item].tag);
	add_item_words(after->engine.kinds, inventory, item, out);
	text_add_format(out, ", is entered on %s",
	    inventory->vessels[inventory->items[item].vessel].name);
	locker_first_due(after, item, &after->arena, &first);
	if (first.any) {
		const struct standing_now standing = {
		    first.state, first.due, first.due, ""};
		text_add_format(out, "; its %s ", task_noun(first.task));
		if (first.due != DAY_NONE) {
			text_add(out, "due ");
			add_day(first.due, "", out);
			text_add(out, ", ");
		}
		add_state_words(&standing, after->today, out);
	}
	text_add(out, "\n");
}

/* The index of the item with a tag; ITEM_NO_PARENT when there is none. */
static size_t
find(struct desk *desk, const char *tag)
{
	struct fault none = {0};
	size_t item = ITEM_NO_PARENT;
	return desk_find_tag(desk, tag, &item, &none) &&
		       strcmp(desk->contents.inventory.items[item].tag, tag) == 0
		   ? item
		   : ITEM_NO_PARENT;
}

static void
add_differences(
    struct desk *before, size_t was, struct desk *after, size_t is, struct text *out)
{
	struct obligation *old = NULL;
	struct obligation *new = NULL;
	size_t old_count = 0;
	size_t new_count = 0;
	const struct inventory *then = &before->contents.inventory;
	const struct inventory *now = &after->contents.inventory;
	const char *tag = now->items[is].tag;
	const struct item_change old_values = item_as_change(then, was);
	const struct item_change new_values = item_as_change(now, is);
	due_of_item(
	    &before->engine, was, before->today, &before->arena, &old, &old_count);
	due_of_item(&after->engine, is, after->today, &after->arena, &new, &new_count);
	add_records(tag, &then->items[was], &now->items[is], out);
	add_value_changes(tag, &old_values, &new_values, now->currency, out);
	for (int task = 0; task < TASK_COUNT; task++) {
		add_task_change(tag, (enum task)task,
		    task_of(old, old_count, (enum task)task),
		    task_of(new, new_count, (enum task)task), before->today, out);
	}
}

void
add_effect(const struct piece_form *form, struct desk *before, struct desk *after,
    struct text *out)
{
	for (size_t i = 0; i < form->tags.count; i++) {
		size_t was = find(before, form->tags.items[i]);
		size_t is = find(after, form->tags.items[i]);
		if (is != ITEM_NO_PARENT && was == ITEM_NO_PARENT) {
			add_new(after, is, out);
		} else if (is != ITEM_NO_PARENT) {
			add_differences(before, was, after, is, out);
		}
	}
}
