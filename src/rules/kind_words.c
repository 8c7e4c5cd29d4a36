#include "base/fold.h"
#include "base/text.h"
#include "base/words.h"
#include "rules/sheet_inside.h"

#include <stdint.h>
#include <string.h>

/* Words in a text, and spellings found in one: more than either is no name of a kind. */
enum { WORDS_MOST = 32, MATCHES_MOST = 96 };

/* The likeness, in hundredths, below which a spelling is not suggested; and the fewest
 * letters of a word that is looked for inside a longer one. */
enum { ALIKE_LEAST = 40, WORD_LEAST = 4 };

static const char DIGITS[] = "0123456789";

/* Drops the -s of a plural. "gas" and "canvass" are none. */
static size_t
singular(const char *words, size_t start, size_t end)
{
	bool plural = end - start > 3 && words[end - 1] == 's' && words[end - 2] != 's';
	return plural ? end - 1 : end;
}

/* How long the word is that starts here. A number ends where letters start ("2kg"), and
 * letters where a number does ("PLB1", "x4"), except for "CO2" and the like. */
static size_t
word_length(const char *word)
{
	static const char GAPS[] = " \t\r\n-_()[]{}.,;:'\"!?#*+/&";
	size_t whole = strcspn(word, GAPS);
	size_t digits = strspn(word, DIGITS);
	if (digits > 0) {
		return digits < whole ? digits : whole;
	}
	size_t letters = strcspn(word, DIGITS);
	bool apart = letters >= 3 || (letters == 1 && text_lower(*word) == 'x');
	return letters < whole && apart ? letters : whole;
}

bool
kind_words_fold(const char *words, char out[SPELLING_SIZE])
{
	static const char GAPS[] = " \t\r\n-_()[]{}.,;:'\"!?#*";
	SCOPED_TEXT plain = {0};
	size_t used = 0;
	fold_accents(words, &plain);
	words = text_string(&plain);
	for (words += strspn(words, GAPS); *words != '\0'; words += strspn(words, GAPS)) {
		bool joint = strchr("+/&", *words) != NULL;
		const char *from = joint ? "and" : words;
		size_t length = joint ? 3 : word_length(words);
		if (used + length + 2 > SPELLING_SIZE) {
			return false;
		}
		if (used > 0) {
			out[used++] = ' ';
		}
		size_t start = used;
		for (size_t i = 0; i < length; i++) {
			out[used++] = from[i];
		}
		used = singular(out, start, used);
		words += joint ? 1 : length;
	}
	out[used] = '\0';
	return true;
}

/* A folded text, cut into its words. */
struct cut {
	struct {
		const char *at;
		size_t length;
	} words[WORDS_MOST];

	size_t count;
};

static bool
cut_words(const char *text, struct cut *cut)
{
	cut->count = 0;
	while (*text != '\0') {
		if (cut->count == WORDS_MOST) {
			return false;
		}
		size_t length = strcspn(text, " ");
		cut->words[cut->count].at = text;
		cut->words[cut->count].length = length;
		cut->count++;
		text += length + strspn(text + length, " ");
	}
	return true;
}

static bool
same_word(const struct cut *cut, size_t index, const char *word, size_t length)
{
	return cut->words[index].length == length &&
	       memcmp(cut->words[index].at, word, length) == 0;
}

/* True when a word stands there as two: "life raft" for "liferaft". */
static bool
same_two_words(const struct cut *cut, size_t index, const char *word, size_t length)
{
	if (index + 1 >= cut->count) {
		return false;
	}
	size_t first = cut->words[index].length;
	return first < length && memcmp(cut->words[index].at, word, first) == 0 &&
	       same_word(cut, index + 1, word + first, length - first);
}

/* Where a word stands in the text, a bit for each place; 0 when it does not. */
static uint32_t
places_of(const struct cut *cut, const char *word, size_t length)
{
	uint32_t places = 0;
	for (size_t i = 0; i < cut->count; i++) {
		if (same_word(cut, i, word, length)) {
			places |= UINT32_C(1) << i;
		} else if (same_two_words(cut, i, word, length)) {
			places |= UINT32_C(3) << i;
		}
	}
	return places;
}

static bool
is_one_of(const char *word, size_t length, const char *const *words, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		if (strlen(words[i]) == length && memcmp(words[i], word, length) == 0) {
			return true;
		}
	}
	return false;
}

/* Words that name a kind only when they stand alone: a "voltage regulator" is none. */
static bool
only_alone(const char *word, size_t length)
{
	static const char *const WORDS[] = {"bobbin", "capsule", "cylinder", "drug",
	    "horseshoe", "ointment", "painkiller", "raft", "regulator", "rocket", "smoke",
	    "tablet", "throwable"};
	return is_one_of(word, length, WORDS, sizeof WORDS / sizeof WORDS[0]);
}

/* Words after which a text is about something else than the kind it names: a bracket for an
 * EPIRB, flares and a lamp, or one that is no longer there. In the languages of the catalogue's
 * synonyms, and folded as they are. */
static bool
means_something_else(const char *word, size_t length)
{
	static const char *const WORDS[] = {"and", "battery", "bracket", "broken",
	    "certificate", "clip", "condemned", "cover", "cradle", "dead", "defective",
	    "dummy", "empty", "for", "holder", "hood", "hook", "instruction", "label",
	    "lamp", "light", "lost", "missing", "mount", "no", "not", "or", "pouch",
	    "registration", "removed", "service", "sign", "sold", "sticker", "strap",
	    "training", "whistle", "without",
	    /* German */
	    "abdeckung", "attrappe", "aufkleber", "batterie", "blitz", "defekt",
	    "entsorgt", "fehlt", "fur", "halter", "halterung", "hydrostat", "hulle",
	    "kasten", "kein", "keine", "kiste", "leer", "leuchte", "licht", "oder",
	    "ohne", "schild", "tasche", "und", "verkauft", "wartung",
	    /* French */
	    "boite", "coffre", "et", "etui", "factice", "feu", "housse", "hydrostatique",
	    "lampe", "largueur", "ou", "pile", "pour", "sans", "support", "vendu", "vide",
	    /* Norwegian */
	    "batteri", "brakett", "deksel", "eller", "feste", "ikke", "kasse", "lys",
	    "og", "pose", "skap", "solgt", "til", "tom", "uten", "utloser",
	    /* Spanish and Italian */
	    "bateria", "caja", "custodia", "funda", "luce", "luz", "para", "per", "pila",
	    "senza", "sin", "soporte", "supporto", "vendido", "venduto"};
	return is_one_of(word, length, WORDS, sizeof WORDS / sizeof WORDS[0]);
}

/* Where a spelling's words stand in the text, in whatever order; 0 unless all do. */
static uint32_t
places_of_all(const struct cut *cut, const char *spelling)
{
	uint32_t places = 0;
	if (only_alone(spelling, strlen(spelling))) {
		return 0;
	}
	while (*spelling != '\0') {
		size_t length = strcspn(spelling, " ");
		uint32_t found = places_of(cut, spelling, length);
		if (found == 0) {
			return 0;
		}
		places |= found;
		spelling += length + strspn(spelling + length, " ");
	}
	return places;
}

/* Spellings found in a text, and where. */
struct matches {
	struct {
		uint32_t places;
		const struct kind *kind;
	} items[MATCHES_MOST];

	size_t count;
};

/* True when another spelling takes in more of the text than this one and all of it:
 * "lifejacket light" against "lifejacket". */
static bool
is_outdone(const struct matches *matches, size_t index)
{
	uint32_t places = matches->items[index].places;
	for (size_t i = 0; i < matches->count; i++) {
		uint32_t other = matches->items[i].places;
		if (other != places && (other & places) == places) {
			return true;
		}
	}
	return false;
}

/* Adds a kind once, in the catalogue's order: kinds are elements of one array. */
static size_t
add_kind(const struct kind *kind, const struct kind **kinds, size_t count)
{
	size_t at = 0;
	while (at < count && kinds[at] < kind) {
		at++;
	}
	if (count == KINDS_FIT_MOST || (at < count && kinds[at] == kind)) {
		return count;
	}
	for (size_t i = count; i > at; i--) {
		kinds[i] = kinds[i - 1];
	}
	kinds[at] = kind;
	return count + 1;
}

static bool
has_other_thing(const struct cut *cut, uint32_t places)
{
	for (size_t i = 0; i < cut->count; i++) {
		bool outside = (places & UINT32_C(1) << i) == 0;
		if (outside &&
		    means_something_else(cut->words[i].at, cut->words[i].length)) {
			return true;
		}
	}
	return false;
}

static size_t
fit_inside(const struct spelling *spellings, size_t count, const struct cut *cut,
    const struct kind *fits[KINDS_FIT_MOST])
{
	struct matches matches = {.count = 0};
	for (size_t i = 0; i < count; i++) {
		uint32_t places = places_of_all(cut, spellings[i].words);
		if (places == 0) {
			continue;
		}
		if (matches.count == MATCHES_MOST) {
			return 0;
		}
		matches.items[matches.count].places = places;
		matches.items[matches.count].kind = spellings[i].kind;
		matches.count++;
	}
	size_t found = 0;
	uint32_t covered = 0;
	for (size_t i = 0; i < matches.count; i++) {
		if (!is_outdone(&matches, i)) {
			covered |= matches.items[i].places;
			found = add_kind(matches.items[i].kind, fits, found);
		}
	}
	return found == 1 && has_other_thing(cut, covered) ? 0 : found;
}

size_t
kind_words_fit(const struct spelling *spellings, size_t count, const char *words,
    const struct kind *fits[KINDS_FIT_MOST])
{
	size_t found = 0;
	for (size_t i = 0; i < count; i++) {
		if (strcmp(spellings[i].words, words) == 0) {
			found = add_kind(spellings[i].kind, fits, found);
		}
	}
	struct cut cut;
	if (found > 0 || !cut_words(words, &cut)) {
		return found;
	}
	return fit_inside(spellings, count, &cut, fits);
}

/* How alike two texts are, in hundredths: the pairs of neighbouring letters they share
 * against all they have. */
static int
likeness(const char *a, const char *b)
{
	size_t a_pairs = strlen(a) < 2 ? 0 : strlen(a) - 1;
	size_t b_pairs = strlen(b) < 2 ? 0 : strlen(b) - 1;
	bool taken[SPELLING_SIZE] = {false};
	size_t shared = 0;
	for (size_t i = 0; i < a_pairs; i++) {
		size_t j = 0;
		while (j < b_pairs && (taken[j] || memcmp(a + i, b + j, 2) != 0)) {
			j++;
		}
		if (j < b_pairs) {
			taken[j] = true;
			shared++;
		}
	}
	size_t all = a_pairs + b_pairs;
	return all == 0 ? 0 : (int)(200 * shared / all);
}

/* Whether a spelling is near enough to be told at all, by its letters, a word in common
 * or as a word in a longer one ("lamp" in "headlamp"): by pairs of letters alone a
 * sextant would be near an extinguisher. */
static bool
is_near(const char *words, const char *spelling)
{
	size_t off = 0;
	bool inside = strlen(words) >= WORD_LEAST && strstr(spelling, words) != NULL;
	return inside || words_in_common(words, spelling) ||
	       word_is_near(words, spelling, &off);
}

/* The best likeness of any of a kind's spellings that are near. */
static int
likeness_of_kind(const struct spelling *spellings, size_t count, const struct kind *kind,
    const char *words)
{
	int best = 0;
	for (size_t i = 0; i < count; i++) {
		bool its =
		    spellings[i].kind == kind && is_near(words, spellings[i].words);
		int here = its ? likeness(words, spellings[i].words) : 0;
		best = here > best ? here : best;
	}
	return best;
}

/* Puts a kind into its place among the nearest. */
static size_t
rank(const struct kind *kind, int score, const struct kind **nearest, int *scores,
    size_t count)
{
	size_t at = count;
	while (at > 0 && scores[at - 1] < score) {
		at--;
	}
	if (at == KINDS_NEAR_MOST) {
		return count;
	}
	size_t end = count < KINDS_NEAR_MOST ? count + 1 : count;
	for (size_t i = end - 1; i > at; i--) {
		nearest[i] = nearest[i - 1];
		scores[i] = scores[i - 1];
	}
	nearest[at] = kind;
	scores[at] = score;
	return end;
}

/* True for a spelling whose kind has none before it, for which its kind is looked at. */
static bool
is_first_of_kind(const struct spelling *spellings, size_t index)
{
	size_t i = 0;
	while (spellings[i].kind != spellings[index].kind) {
		i++;
	}
	return i == index;
}

size_t
kind_words_near(const struct spelling *spellings, size_t count, const char *words,
    const struct kind *nearest[KINDS_NEAR_MOST])
{
	int scores[KINDS_NEAR_MOST] = {0};
	size_t found = 0;
	for (size_t i = 0; i < count; i++) {
		const struct kind *kind = spellings[i].kind;
		int score = is_first_of_kind(spellings, i)
				? likeness_of_kind(spellings, count, kind, words)
				: 0;
		if (score >= ALIKE_LEAST) {
			found = rank(kind, score, nearest, scores, found);
		}
	}
	/* What is far less alike than the best only distracts from it. */
	while (found > 1 && scores[found - 1] * 4 < scores[0] * 3) {
		found--;
	}
	return found;
}
