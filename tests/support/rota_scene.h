/* Two boats in use all year, the store of their base and a station, and the rota asked about
 * them. */
#ifndef BECKET_TEST_ROTA_SCENE_H
#define BECKET_TEST_ROTA_SCENE_H

#include "becket_test.h"
#include "rota/rota.h"
#include "scene.h"

enum { BOAT, OTHER, STORE, VESSELS };

/* Two boats with four persons each. */
struct base {
	struct scene scene;
	struct vessel vessels[VESSELS];
	const struct rulebook *rulebooks[VESSELS];
	struct station station; /* ten days, never shut */
	struct rota_ask ask;    /* from 25 November 2026 for a year */
};

/* Opens it with rules as scene_open takes them. Close the scene with scene_close. */
void base_open_of(struct base *base, const char *sheet);

/* With these: rafts and jackets are serviced every twelve months, what is inside a raft
 * lasts as marked; a boat carries rafts for all, and a lifejacket for each. */
void base_open(struct base *base);

/* Adds a piece of March 2023, a raft one for six. Items must come in the order of the vessels. */
struct item *base_add(
    struct base *base, size_t vessel, const char *kind, const char *served);
void base_add_jackets(struct base *base, size_t vessel, int count, const char *served);

/* Makes the rota that is asked for. */
struct rota base_rota(struct base *base);

#endif
