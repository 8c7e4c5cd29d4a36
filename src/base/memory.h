/* Arrays that grow and arenas that are freed at once. */
#ifndef BECKET_BASE_MEMORY_H
#define BECKET_BASE_MEMORY_H

#include "base/fault.h"

#include <stddef.h>

/* Makes `*items` (an array of `*capacity` elements of `element_size` bytes, or NULL) hold at
 * least `needed` elements; grows by doubling. On failure the array is as it was. */
MUST_CHECK bool array_reserve(void *items, size_t *capacity, size_t element_size,
    size_t needed, struct fault *fault);

/* Makes room for one more element in `array`, a struct pointer or lvalue with the fields
 * `items`, `count` and `capacity`. */
#define ARRAY_ROOM(array, fault)                                                         \
	array_reserve(&(array)->items, &(array)->capacity, sizeof *(array)->items,       \
	    (array)->count + 1, (fault))

/* Memory that is handed out piece by piece and freed all at once. Starts as `{ 0 }`. */
struct arena {
	struct arena_block *first; /* owned chain of blocks */
	size_t used;               /* bytes used in the first block */
};

/* `size` zeroed bytes, aligned for any type, valid until the arena is cleared; NULL when
 * memory ran out. */
void *arena_alloc(struct arena *arena, size_t size);

/* A copy of a string (NULL stays NULL); NULL as well when memory ran out. */
const char *arena_string(struct arena *arena, const char *string);

/* As array_reserve, for an array in an arena: what is moved stays where it was, too, until the
 * arena is cleared, so that pointers into it stay good. */
MUST_CHECK bool arena_reserve(struct arena *arena, void *items, size_t *capacity,
    size_t element_size, size_t needed, struct fault *fault);

/* Makes room for one more element in `array`, as ARRAY_ROOM does, in the arena. */
#define ARENA_ROOM(arena, array, fault)                                                  \
	arena_reserve((arena), &(array)->items, &(array)->capacity,                      \
	    sizeof *(array)->items, (array)->count + 1, (fault))

/* Frees everything. Accepts a zeroed arena. */
void arena_clear(struct arena *arena);

/* Forgets everything but keeps the newest block for reuse. */
void arena_reset(struct arena *arena);

#define SCOPED_ARENA __attribute__((cleanup(arena_clear))) struct arena

#endif
