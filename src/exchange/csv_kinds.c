#include "base/alike.h"
#include "exchange/csv_inside.h"
#include "exchange/csv_read.h"

#include <string.h>

/* The kinds that words fit. */
struct fits {
	const struct kind *items[KINDS_FIT_MOST];
	size_t count;
};

static struct fits
fits_of(const struct kinds *kinds, const char *words)
{
	struct fits fits = {.count = 0};
	fits.count = *words == '\0' ? 0 : kinds_fitting(kinds, words, fits.items);
	return fits;
}

/* The only kind of `these`, where it is one of `those` or those are none; else NULL. */
static const struct kind *
only_one(const struct fits *these, const struct fits *those)
{
	if (these->count != 1) {
		return NULL;
	}
	bool among = those->count == 0;
	for (size_t i = 0; i < those->count; i++) {
		among = among || those->items[i] == these->items[0];
	}
	return among ? these->items[0] : NULL;
}

/* What the description makes of it: alone, or said after the kind's own words ("Liferaft"
 * and "6 man, valise"). */
static const struct kind *
from_description(const struct kinds *kinds, const char *words, const char *description,
    const struct fits *fits)
{
	struct fits alone = fits_of(kinds, description);
	const struct kind *kind = only_one(&alone, fits);
	if (kind != NULL || fits->count == 0) {
		return kind;
	}
	SCOPED_TEXT both = {0};
	text_add_format(&both, "%s %s", words, description);
	struct fits together = fits_of(kinds, text_string(&both));
	return only_one(&together, fits);
}

/* Neither tells. Where only the description comes near, it is the one to say why. */
static bool
refuse(const struct kinds *kinds, const char *words, const char *description,
    const struct fits *fits, struct fault *fault)
{
	struct fits described = fits_of(kinds, description);
	bool by_description = fits->count == 0 && described.count > 1;
	bool told =
	    kinds_tell(kinds, by_description ? description : words, fault) != NULL;
	if (by_description && !told && *words != '\0') {
		return fault_prefix(fault,
		    "\"%.60s\" is no kind in the catalogue, and its description", words);
	}
	return false;
}

static const struct csv_mapping *
meaning_of(const struct csv_options *options, const char *words)
{
	for (size_t i = 0; i < options->meaning_count; i++) {
		if (names_alike(options->meanings[i].theirs, words) >= ALIKE_CASE) {
			return &options->meanings[i];
		}
	}
	return NULL;
}

const struct csv_mapping *
csv_told_kind(const struct csv_options *options, const char *words)
{
	SCOPED_TEXT bare = {0};
	if (options->meaning_count == 0) {
		return NULL;
	}
	csv_without_how_many(words, &bare);
	const struct csv_mapping *exact = meaning_of(options, words);
	return exact != NULL || bare.length == 0
		   ? exact
		   : meaning_of(options, text_string(&bare));
}

bool
csv_tell_kind(const struct kinds *kinds, const char *words, const char *description,
    struct csv_notes *notes, size_t line, const char **id_out, struct fault *fault)
{
	struct fits fits = fits_of(kinds, words);
	const struct kind *kind = fits.count == 1 ? fits.items[0] : NULL;
	if (kind != NULL) {
		if (strcmp(kind->id, words) != 0) {
			csv_note_once(
			    notes, line, "kind \"%.60s\" taken as %s", words, kind->id);
		}
	} else {
		kind = from_description(kinds, words, description, &fits);
		if (kind == NULL) {
			return refuse(kinds, words, description, &fits, fault);
		}
		csv_note_once(notes, line,
		    "kind \"%.60s\" taken as %s for its description \"%.60s\"", words,
		    kind->id, description);
	}
	*id_out = kind->id;
	return true;
}
