#include "desk/naming.h"

#include "base/alike.h"

static const char *const WHATS[] = {
    [NAMED_TAG] = "tag",
    [NAMED_VESSEL] = "vessel",
    [NAMED_STATION] = "station",
    [NAMED_BASE] = "base",
    [NAMED_SHEET] = "rule sheet",
    [NAMED_AREA] = "area",
};

static bool
refuse_several(enum named named, const char *typed, const char *const *names,
    const size_t *found, size_t count, struct fault *fault)
{
	SCOPED_TEXT list = {0};
	for (size_t i = 0; i < count; i++) {
		text_add_format(&list, "%s%s",
		    i == 0           ? ""
		    : i + 1 == count ? " or "
				     : ", ",
		    names[found[i]]);
	}
	return fault_set(fault, FAULT_INPUT, "the %s \"%s\" could be %s; type it %s",
	    WHATS[named], typed, text_string(&list),
	    named < NAMED_SHEET ? "as it stands in the book" : "just so");
}

static bool
ask_accents(struct desk *desk, enum named named, const char *typed, const char *name,
    struct fault *fault)
{
	SCOPED_TEXT words = {0};
	SCOPED_TEXT unasked = {0};
	text_add_format(&words,
	    "There is no %s \"%s\", but %s is the same but for accents. Is %s meant?",
	    WHATS[named], typed, name, name);
	text_add_format(&unasked,
	    "there is no %s \"%s\", but %s is the same but for accents; if that is meant, "
	    "type it so",
	    WHATS[named], typed, name);
	return desk_ask(desk, text_string(&words), text_string(&unasked),
	    "another one was meant, so nothing is written", fault);
}

bool
naming_among(struct desk *desk, enum named named, const char *typed,
    const char *const *names, size_t count, size_t *index_out, struct fault *fault)
{
	size_t *found = NULL;
	size_t found_count = 0;
	enum likeness how =
	    names_meant(&desk->arena, typed, names, count, &found, &found_count);
	if (found_count > 1) {
		return refuse_several(named, typed, names, found, found_count, fault);
	}
	*index_out = how == ALIKE_NOT ? count : found[0];
	if (how != ALIKE_ACCENTS) {
		return true;
	}
	if (desk->mode != BOOK_READ) {
		return ask_accents(desk, named, typed, names[found[0]], fault);
	}
	desk_note(desk, "\"%s\" is read as %s", typed, names[found[0]]);
	return true;
}

bool
naming_sheet(
    struct desk *desk, const char *typed, const char **name_out, struct fault *fault)
{
	const char *const *names = NULL;
	size_t count = 0;
	size_t found = 0;
	shelf_names(&desk->shelf, &desk->arena, &names, &count);
	if (!naming_among(desk, NAMED_SHEET, typed, names, count, &found, fault)) {
		return false;
	}
	*name_out = found < count ? names[found] : typed;
	return true;
}

static const enum book_names NAMES[] = {
    [NAMED_TAG] = BOOK_TAGS,
    [NAMED_VESSEL] = BOOK_VESSELS,
    [NAMED_STATION] = BOOK_STATIONS,
    [NAMED_BASE] = BOOK_BASES,
};

static struct book *
book_of(struct name_book *names)
{
	struct fault ignored = {0};
	const struct desk *desk = names->desk;
	bool reads = desk->mode == BOOK_READ || desk->book != NULL;
	if (!names->opened) {
		names->opened = true;
		if (!desk_has_book(desk) ||
		    !book_open(desk->book_path, reads ? BOOK_READ : BOOK_LOOK,
			&names->book, &ignored)) {
			names->book = NULL;
		}
	}
	return names->book;
}

void
naming_hand_over(struct name_book *names)
{
	struct desk *desk = names->desk;
	if (desk->mode != BOOK_TRIAL && desk->book == NULL) {
		desk->book = names->book;
		desk->lent = names->book != NULL;
		names->book = NULL;
	}
}

void
naming_close(struct name_book *names)
{
	book_close(names->book);
	*names = (struct name_book){.desk = names->desk};
}

bool
naming_stands(struct name_book *names, enum named named, const char *name)
{
	struct book *book = book_of(names);
	struct fault ignored = {0};
	bool stands = false;
	return book != NULL &&
	       book_has_name(book, NAMES[named], name, &stands, &ignored) && stands;
}

void
naming_all(struct name_book *names, enum named named, struct word_list *out)
{
	struct book *book = book_of(names);
	struct fault ignored = {0};
	*out = (struct word_list){0};
	if (book != NULL &&
	    !book_names(book, NAMES[named], &names->desk->arena, out, &ignored)) {
		*out = (struct word_list){0};
	}
}
