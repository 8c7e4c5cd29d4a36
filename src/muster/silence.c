/* What a vessel's sheets say nothing of: where no line asks for anything, nothing is
 * proven. */
#include "base/text.h"
#include "muster/inside.h"
#include "rules/meets.h"

/* The subjects of the lines that hold for her, or may hold. */
static unsigned
spoken_of(const struct roll *roll, day_t day)
{
	unsigned about = 0;
	for (size_t i = 0; i < roll->line_count; i++) {
		const char *asks = "";
		if (vessel_meets(roll->vessel, &roll->lines[i]->when, day, &asks) != 0) {
			about |= roll->lines[i]->about;
		}
	}
	return about;
}

static void
add_ask(struct muster_silence *silence, const char *ask)
{
	if (!words_have(silence->ask, silence->ask_count, ask)) {
		silence->ask[silence->ask_count++] = ask;
	}
}

/* Whom to ask about one subject: all whom her sheets name for it. */
static void
find_asks(const struct roll *roll, const struct muster *muster, struct arena *arena,
    struct muster_silence *silence)
{
	size_t count = 0;
	const struct not_stated *const *all =
	    rulebook_not_stated(roll->engine->rulebooks[muster->vessel], &count);
	silence->ask = arena_alloc(arena, (count + 1) * sizeof(const char *));
	for (size_t i = 0; i < count; i++) {
		const char *asks = "";
		if ((all[i]->about & 1U << silence->subject) != 0 &&
		    vessel_meets(roll->vessel, &all[i]->when, muster->on, &asks) != 0) {
			add_ask(silence, all[i]->ask);
		}
	}
}

void
roll_silences(const struct roll *roll, struct arena *arena, struct muster *muster)
{
	unsigned spoken = spoken_of(roll, muster->on);
	muster->silences =
	    arena_alloc(arena, GEAR_SUBJECT_COUNT * sizeof *muster->silences);
	for (unsigned i = 0; i < GEAR_SUBJECT_COUNT; i++) {
		if ((spoken & 1U << i) != 0) {
			continue;
		}
		struct muster_silence *silence =
		    &muster->silences[muster->silence_count++];
		*silence = (struct muster_silence){.subject = (enum carriage_subject)i};
		find_asks(roll, muster, arena, silence);
	}
}
