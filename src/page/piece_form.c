/* The fields of a form about one piece: shown, and read. */
#include "gear/money.h"
#include "page/pieces.h"
#include "page/shell.h"

#include <stdlib.h>
#include <string.h>

const char *
form_typed(const struct piece_form *form, const char *name, const char *otherwise)
{
	const struct visit *visit = form->visit;
	const char *value = form_value(&visit->sent, name);
	value = value == NULL ? form_value(&visit->asked, name) : value;
	return value == NULL ? otherwise : value;
}

void
form_field(
    struct piece_form *form, const char *name, const char *label, const char *otherwise)
{
	SHELL_FIELD(form->visit, .name = name, .label = label,
	    .value = form_typed(form, name, otherwise),
	    .wrong = strcmp(form->wrong, name) == 0 ? form->why : NULL);
}

void
form_choice(struct piece_form *form, const char *name, const char *label,
    const char *const *values, const char *const *words)
{
	struct markup *markup = form->visit->markup;
	const char *typed = form_typed(form, name, "");
	shell_choice(form->visit, name, label);
	for (size_t i = 0; values[i] != NULL; i++) {
		shell_option(
		    form->visit, values[i], words[i], strcmp(values[i], typed) == 0);
	}
	markup_end(markup);
	if (strcmp(form->wrong, name) == 0) {
		markup_element(markup, "p", "fault", form->why);
	}
	markup_end(markup);
}

void
add_typed_value(
    const struct field *field, const void *of, const char *currency, struct text *out)
{
	struct stamp again = {0};
	struct fault none = {0};
	char words[STAMP_TEXT_SIZE];
	if (field->type == VALUE_STAMP) {
		const struct stamp *stamp = field_of(field, of);
		if (stamp->precision != STAMP_NONE && !stamp->estimated &&
		    stamp_parse(stamp_words(*stamp, words), ORDER_ISO, &again, &none) &&
		    stamp_first(again) == stamp_first(*stamp) &&
		    stamp_last(again) == stamp_last(*stamp)) {
			text_add(out, words);
			return;
		}
	}
	field_add(field, of, currency, out);
}

bool
form_read_field(struct desk *desk, const struct field *field, const char *name,
    const char *typed, void *of, struct fault *fault)
{
	void *at = field_in(field, of);
	const char *currency = NULL;
	char *end = NULL;
	bool read = true;
	if (typed[0] == '\0') {
		field_empty(field, of);
		return true;
	}
	if (field->type == VALUE_STAMP) {
		read = stamp_typed(typed, desk->today, at, fault);
	} else if (field->type == VALUE_PRICE) {
		read = desk_currency(desk, &currency, fault) &&
		       money_parse(typed, currency, at, fault);
	} else if (field->type == VALUE_COUNT) {
		long number = strtol(typed, &end, 10);
		read =
		    *end == '\0' && number >= field->least && number <= FIELD_NUMBER_MOST;
		if (!read) {
			return fault_set(fault, FAULT_INPUT,
			    FIELD "%s: \"%.40s\" is no whole number from %d on", name,
			    typed, field->least);
		}
		*(int *)at = (int)number;
	} else {
		*(const char **)at = typed;
	}
	return read || fault_prefix(fault, FIELD "%s", name);
}

void
form_keep_tag(struct piece_form *form, struct word_list *tags, const char *tag)
{
	ARENA_ADD(&form->visit->arena, tags, arena_string(&form->visit->arena, tag));
}

void
form_concerns(struct piece_form *form, const char *tag)
{
	form_keep_tag(form, &form->tags, tag);
}

void
form_concerns_it(struct piece_form *form)
{
	for (size_t i = 0; i < form->own.count; i++) {
		form_concerns(form, form->own.items[i]);
	}
}
