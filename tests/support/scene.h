/* A boat, a sheet and some gear for tests of the engine: everything in words, so that a test
 * reads like an example. */
#ifndef BECKET_TEST_SCENE_H
#define BECKET_TEST_SCENE_H

#include "due/due.h"
#include "in_words.h"
#include "winter/winter.h"

enum { SCENE_MOST = 64 };

/* Open with scene_open or SCENE, close with scene_close or by its scope. Change vessel and items in
 * place. */
struct scene {
	struct kinds *kinds;
	struct sheet *sheet;
	struct rulebook *rulebook;
	const struct rulebook *rulebooks[1];
	struct period periods[SCENE_MOST];
	struct vessel vessel; /* private since ever, laid up 11-01..03-31 */
	struct item items[SCENE_MOST];
	size_t item_count;
	struct record records[SCENE_MOST][SCENE_MOST];
	struct inventory inventory;
	struct arena arena;
	struct due_engine engine;
};

/* Reads the catalogue in data/ and a sheet: `rules` is the YAML of its rules alone, a list
 * indented by two; or the name of a sheet in data/sheets when it ends in ".yaml". Fails the
 * test with the message when it can't be read. */
void scene_open(struct scene *scene, const char *rules);

/* Closes a scene, or the one that another struct begins with. */
void scene_close(void *of);

/* Before such a struct: its scope closes it, `CLOSES_SCENE struct port port;`. */
#define CLOSES_SCENE __attribute__((cleanup(scene_close)))

/* A scene of that name with these rules; its scope closes it. */
#define SCENE(name, rules)                                                               \
	CLOSES_SCENE struct scene name;                                                  \
	scene_open(&name, rules)

/* Adds an item of a kind and returns it; its tag is the kind's id. */
struct item *scene_item(struct scene *scene, const char *kind);

/* Adds a record to an item; `next` may be NULL. */
void scene_record(struct scene *scene, struct item *item, enum task task, const char *on,
    const char *next);

/* Makes the engine anew for what the scene holds now, with the parts found. A test with
 * several vessels then gives it their rulebooks. */
void scene_engine(struct scene *scene);

/* The obligation of a task (not a routine one) seen from a day; fails the test when there is
 * none. Lives until the scene is closed. */
struct obligation scene_due(
    struct scene *scene, const struct item *item, enum task task, const char *today);

/* The due day of the above as text: "2027-05-31", "" when there is none. */
const char *scene_due_day(
    struct scene *scene, const struct item *item, enum task task, const char *today);

/* The state of the above, as of that same day. */
const char *scene_state(
    struct scene *scene, const struct item *item, enum task task, const char *today);

#endif
