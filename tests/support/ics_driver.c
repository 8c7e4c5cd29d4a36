/* Writes a calendar of nasty texts, to be read by parsers that no one here wrote.
 *
 * usage: ics_driver CALENDAR EXPECTED
 *
 * EXPECTED gets what a parser must read: four strings an event, each ended by a zero byte:
 * the day, the summary, the description, and the UID. The texts are such that nothing of
 * them is tidied away. */
#include "calendar/ics.h"

#include <stdio.h>
#include <string.h>

/* A text is `lead` letters and then `tail`, so that the tail walks over the fold edge. */
struct nasty {
	size_t lead_first;
	size_t lead_last;
	const char *tail;
	const char *note;
};

static const struct nasty NASTY[] = {
    {0, 0, "Hand in 1 item at Skerry Raft Loft (Example)", "an ordinary one"},
    {0, 0, "a, b; c: d \"e\" \\ f \\n g \\, h 'i' <j> &k; {l} %m",
	"what needs an escape"},
    {0, 0, "\\\\\\\\server\\new\\,\\;\\\\", "backslashes before letters that mean much"},
    {0, 0, "first\n\nthird, after an empty line\nfourth;", "lines"},
    {0, 0, "BEGIN:VEVENT\nUID:x\nEND:VEVENT", "lines that look like properties"},
    {52, 80, "x", "a run of letters without a blank, 73 and 74 octets among them"},
    {52, 76, "\xC3\xA5 \xC3\xB8 \xC3\xA6 redningsfl\xC3\xA5te", "Norwegian"},
    {52, 76, "\xCE\xA3\xCF\x89\xCF\x83\xCE\xAF\xCE\xB2\xCE\xB9\xCE\xBF", "Greek"},
    {52, 76, "\xE6\x95\x91\xE5\x91\xBD\xE8\x83\xB4\xE8\xA1\xA3", "Japanese"},
    {52, 76, "\xF0\x9F\x9B\x9F\xF0\x9F\x87\xB3\xF0\x9F\x87\xB4",
	"beyond the first plane"},
    {52, 76, "\\,;\\\n\\n,,;;\\\\end", "escapes"},
    {52, 76, " a b c d e f g", "blanks"},
    {52, 76, ":;:;=\"^n", "what libical folds at"},
};

enum { ROOM = 4096 };

/* Makes the text with `lead` letters. The tail's line breaks become blanks where the text is
 * a summary. */
static const char *
make(const char *tail, size_t lead, bool one_line, struct arena *arena)
{
	size_t size = lead + 3 * strlen(tail) + 1;
	char *made = arena_alloc(arena, size);
	memset(made, 'm', lead);
	char *at = made + lead;
	/* Three times over, so that later lines have their edges in it too. */
	for (size_t i = 0; i < (one_line ? 1 : 3); i++) {
		memcpy(at, tail, strlen(tail));
		at += strlen(tail);
	}
	for (at = made; one_line && *at != '\0'; at++) {
		if (*at == '\n' && at[1] == '\n') {
			*at = '/';
		} else if (*at == '\n') {
			*at = ' ';
		}
	}
	return made;
}

static size_t
make_all(struct reminder *reminders, struct arena *arena)
{
	size_t count = 0;
	for (size_t i = 0; i < sizeof NASTY / sizeof NASTY[0]; i++) {
		const struct nasty *nasty = &NASTY[i];
		for (size_t lead = nasty->lead_first; lead <= nasty->lead_last; lead++) {
			char key[64];
			(void)snprintf(key, sizeof key, "nasty|%zu|%zu", i, lead);
			bool bare = i == 0; /* one has no description */
			reminders[count] = (struct reminder){
			    .key = arena_string(arena, key),
			    .day = day_from_civil(2027, 2, 1) + (day_t)count,
			    .summary = make(nasty->tail, lead, true, arena),
			    .description =
				bare ? "" : make(nasty->tail, lead, false, arena),
			    .category = "becket",
			};
			count++;
		}
	}
	return count;
}

/* Writes bytes to a file; false when that failed. */
static bool
put(const char *path, const struct text *text)
{
	FILE *file = fopen(path, "wb");
	if (file == NULL) {
		return false;
	}
	bool whole = fwrite(text->bytes, 1, text->length, file) == text->length;
	return fclose(file) == 0 && whole;
}

static void
expect(const struct reminder *reminder, struct text *out)
{
	char day[DAY_ISO_SIZE];
	const char *const strings[] = {day_iso(reminder->day, day), reminder->summary,
	    reminder->description, reminder->uid};
	for (size_t i = 0; i < sizeof strings / sizeof strings[0]; i++) {
		text_add_bytes(out, strings[i], strlen(strings[i]) + 1);
	}
}

int
main(int argc, char **argv)
{
	static struct reminder room[ROOM];
	struct arena arena = {0};
	struct fault fault = {0};
	SCOPED_TEXT calendar = {0};
	SCOPED_TEXT expected = {0};
	struct reminders reminders = {.items = room, .count = make_all(room, &arena)};
	if (argc != 3) {
		(void)fputs("usage: ics_driver CALENDAR EXPECTED\n", stderr);
		arena_clear(&arena);
		return 2;
	}
	bool done = reminders_settle(&reminders, &(struct given_before){NULL, NULL},
			"00112233445566778899aabbccddeeff", 1800000000, &arena, &fault) &&
		    ics_write("Safety gear", room, reminders.count, &calendar, &fault);
	for (size_t i = 0; i < reminders.count && done; i++) {
		expect(&room[i], &expected);
	}
	done = done && put(argv[1], &calendar) && put(argv[2], &expected);
	arena_clear(&arena);
	if (!done) {
		(void)fprintf(stderr, "ics_driver: %s\n", fault.text);
	}
	return done ? 0 : 3;
}
