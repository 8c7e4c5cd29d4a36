/* Arrays that grow, arenas that are freed at once, and the end of the program when memory
 * runs out: nothing here fails. Whoever reads an input checks its size against a limit
 * before asking for memory of that size here. */
#ifndef BECKET_BASE_MEMORY_H
#define BECKET_BASE_MEMORY_H

#include "base/fault.h"

#include <stdalign.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

/* Ends the program because memory ran out: writes words to standard error and leaves with
 * status 3, at once, without flushing or freeing anything. A transaction that is open is
 * rolled back by the journal of the book when it is next opened. Also for a library that
 * has returned NULL where only memory can be the cause. */
_Noreturn void memory_ended(void);

/* The same for another reason that the program can't repair: `why` stands before ", so
 * the program ended". */
_Noreturn void program_ended(const char *why);

/* Ends the program unless that many more bytes can be allocated. For the call of a
 * library that does not check its own allocations and would crash. */
void memory_spare(size_t size);

/* What memory_ended says beside "memory ran out": `words`, a whole sentence that lives as
 * long as the program. Set by the book when a change has been committed; until then the
 * words are that nothing was changed. */
void memory_tell(const char *words);

/* `pointer`, from a library's allocation; ends the program when it is NULL. */
void *memory_held(void *pointer);

/* `count` zeroed elements of `size` bytes, and a copy of a string; free() them. */
void *memory_zeroed(size_t count, size_t size);
char *memory_string(const char *string);

/* Makes `*items` (an array of `*capacity` elements of `element_size` bytes, or NULL) hold
 * at least `needed` elements; grows by doubling. */
void array_reserve(void *items, size_t *capacity, size_t element_size, size_t needed);

/* Makes room for one more element in `array`, a struct pointer or lvalue with the fields
 * `items`, `count` and `capacity`. */
#define ARRAY_ROOM(array)                                                                \
	((array)->count < (array)->capacity                                              \
		? (void)0                                                                \
		: array_reserve(&(array)->items, &(array)->capacity,                     \
		      sizeof *(array)->items, (array)->count + 1))

/* Makes room for one more element and puts it there: what is behind the array is its
 * value, which may ask how many there were before. */
#define ARRAY_ADD(array, ...)                                                            \
	(ARRAY_ROOM(array), (array)->items[(array)->count] = __VA_ARGS__,                \
	    (void)(array)->count++)

/* Sorts `count` elements as qsort does; `items` may be NULL where there are none. What is sorted
 * already, as most of what a book gives is, is only looked through. */
#define ARRAY_SORT(items, count, compare)                                                \
	array_sort((items), (count), sizeof *(items), (compare))
void array_sort(
    void *items, size_t count, size_t size, int (*compare)(const void *, const void *));

/* Memory that is handed out piece by piece and freed all at once. Starts as `{ 0 }`. */
struct arena {
	struct arena_block *first; /* owned chain of blocks */
	char *next;                /* what is free of the first of them, */
	size_t left;               /* in bytes: a multiple of an alignment for any type */
};

/* As arena_alloc, for what there is no room for in the first block, and not zeroed. */
void *arena_more(struct arena *arena, size_t size);

/* The same where there is room, as nearly always: here, so that the compiler can put it where it is
 * used. Never NULL, for no bytes either. */
static inline void *
arena_room(struct arena *arena, size_t size)
{
	if (size > SIZE_MAX / 2) {
		memory_ended();
	}
	if (size >= arena->left) {
		return arena_more(arena, size);
	}
	size_t rounded = (size + alignof(max_align_t) - 1) & ~(alignof(max_align_t) - 1);
	char *room = arena->next;
	arena->next += rounded;
	arena->left -= rounded;
	return room;
}

/* `size` zeroed bytes, aligned for any type, valid until the arena is cleared. */
static inline void *
arena_alloc(struct arena *arena, size_t size)
{
	return memset(arena_room(arena, size), 0, size);
}

/* Room in an arena for so many zeroed elements of a type, and for one more. */
#define ARENA_MANY(arena, type, count)                                                   \
	((type *)arena_alloc((arena), ((count) + 1) * sizeof(type)))

/* A copy of a string (NULL stays NULL), and of `length` bytes as one. */
const char *arena_string(struct arena *arena, const char *string);
const char *arena_bytes(struct arena *arena, const char *bytes, size_t length);

/* As array_reserve, for an array in an arena: the old array stays where it was until the
 * arena is cleared, so that pointers into it stay valid. */
void arena_reserve(struct arena *arena, void *items, size_t *capacity,
    size_t element_size, size_t needed);

/* Makes room for one more element in `array`, as ARRAY_ROOM does, in the arena. */
/* NOLINTBEGIN(bugprone-sizeof-expression): what is stored may well be pointers */
#define ARENA_ROOM(arena, array)                                                         \
	((array)->count < (array)->capacity                                              \
		? (void)0                                                                \
		: arena_reserve((arena), &(array)->items, &(array)->capacity,            \
		      sizeof *(array)->items, (array)->count + 1))
/* NOLINTEND(bugprone-sizeof-expression) */

/* As ARRAY_ADD, in the arena. */
#define ARENA_ADD(arena, array, ...)                                                     \
	(ARENA_ROOM(arena, array), (array)->items[(array)->count] = __VA_ARGS__,         \
	    (void)(array)->count++)

/* Frees everything. Accepts a zeroed arena. */
void arena_clear(struct arena *arena);

/* Forgets everything but keeps one block for reuse. */
void arena_reset(struct arena *arena);

#define SCOPED_ARENA __attribute__((cleanup(arena_clear))) struct arena

#endif
