/* The act that enters a new piece. */
#include "page/pieces.h"

/* The fields of a new piece besides kind, boat and number. */
static const enum item_field ENTERED[] = {FIELD_DESCRIPTION, FIELD_MAKE, FIELD_PLACE,
    FIELD_QUANTITY, FIELD_MADE, FIELD_PACKED, FIELD_BOUGHT, FIELD_FITTED, FIELD_EXPIRES,
    FIELD_CAPACITY, FIELD_RATING, FIELD_PRICE, FIELD_NOTES};

static bool
read_like(struct piece_form *form, struct desk *desk, struct item_change *like,
    struct fault *fault)
{
	const struct kind *kind = NULL;
	if (!desk_kind(desk, form_typed(form, "kind", ""), &kind, fault)) {
		return fault_prefix(fault, FIELD "kind");
	}
	*like = blank_change();
	like->kind = kind->id;
	like->vessel = form_typed(form, "vessel", "");
	like->set = 1U << FIELD_KIND | 1U << FIELD_VESSEL;
	for (size_t i = 0; i < sizeof ENTERED / sizeof ENTERED[0]; i++) {
		const struct field *field = &ITEM_FIELDS[ENTERED[i]];
		const char *typed = form_typed(form, field->name, "");
		if (typed[0] == '\0') {
			continue;
		}
		if (!form_read_field(desk, field, field->name, typed, like, fault)) {
			return false;
		}
		like->set |= 1U << ENTERED[i];
	}
	return true;
}

/* Words separated by commas; nothing when there are none. */
static bool
read_words(const struct piece_form *form, struct desk *desk, const char *name,
    struct word_list *out, struct fault *fault)
{
	const char *typed = form_typed(form, name, "");
	if (typed[0] != '\0' && !words_cut(&desk->arena, typed, out, fault)) {
		return fault_prefix(fault, FIELD "%s", name);
	}
	return true;
}

static bool
run_new(struct piece_form *form, struct desk *desk, struct fault *fault)
{
	struct enter_request request = {0};
	struct enter_outcome done = {0};
	struct record record = {.price_minor = -1, .station = "", .certificate = ""};
	struct item_change count = blank_change();
	const char *served = form_typed(form, "served", "");
	const char *number = form_typed(form, "count", "1");
	if (!form_read_field(
		desk, &ITEM_FIELDS[FIELD_QUANTITY], "count", number, &count, fault) ||
	    !read_like(form, desk, &request.like, fault) ||
	    !read_words(form, desk, "tags", &request.tags, fault) ||
	    !read_words(form, desk, "serials", &request.serials, fault) ||
	    !read_words(form, desk, "part_of", &request.wholes, fault)) {
		return false;
	}
	request.count =
	    request.tags.count + request.serials.count > 0 && count.quantity == 1
		? 0
		: count.quantity;
	if (served[0] != '\0') {
		if (!form_read_field(desk, &RECORD_FIELDS[RECORD_SERVED], "served",
			served, &record, fault)) {
			return false;
		}
		request.record = &record;
	}
	if (!desk_enter(desk, &request, &done, fault)) {
		return false;
	}
	for (size_t i = 0; i < done.count; i++) {
		form_concerns(form, done.items[i].tag);
	}
	return true;
}

static void
fields_new(struct piece_form *form)
{
	const struct inventory *inventory = &form->visit->desk.contents.inventory;
	const char **names = arena_alloc(
	    &form->visit->arena, (inventory->vessel_count + 1) * sizeof *names);
	SCOPED_TEXT label = {0};
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		names[i] = inventory->vessels[i].name;
	}
	form_field(form, "kind", "What it is: lifejacket, red hand flare ...", "");
	form_choice(form, "vessel", "Boat, or spares", names, names);
	form_field(form, "count", "How many alike, each with a tag of its own", "1");
	form_field(form, "tags", "Tags, as LJ-7, LJ-8; made if left out", "");
	form_field(form, "serials", "Serial numbers, with commas between", "");
	form_field(form, "part_of", "Part of, by its tag", "");
	for (size_t i = 0; i < sizeof ENTERED / sizeof ENTERED[0]; i++) {
		const struct field *field = &ITEM_FIELDS[ENTERED[i]];
		text_reset(&label);
		text_add_capital(&label, i == 3                 ? "pieces under one tag"
					 : field->label == NULL ? field->name
								: field->label);
		form_field(form, field->name, text_string(&label), "");
	}
	form_field(form, "served", "Last serviced", "");
}

const struct piece_act PIECE_NEW = {
    "/new", "Enter gear", "enter it", run_new, fields_new};
