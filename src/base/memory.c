#include "base/memory.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { STATUS_ENDED = 3 };

static const char *standing = "Nothing was changed in the book.";

/* No printing function of the C library: it might want memory of its own. */
static void
say(const char *words)
{
	ssize_t written = write(STDERR_FILENO, words, strlen(words));
	(void)written; /* there is no one left to tell */
}

void
program_ended(const char *why)
{
	say("becket: ");
	say(why);
	say(", so the program ended. ");
	say(standing);
	say("\n");
	_exit(STATUS_ENDED);
}

void
memory_ended(void)
{
	program_ended("memory ran out");
}

void
memory_tell(const char *words)
{
	standing = words;
}

void
memory_spare(size_t size)
{
	/* volatile, or the compiler leaves out an allocation that nothing uses */
	void *volatile block = malloc(size);
	if (block == NULL) {
		memory_ended();
	}
	free(block);
}

void *
memory_held(void *pointer)
{
	if (pointer == NULL) {
		memory_ended();
	}
	return pointer;
}

void *
memory_zeroed(size_t count, size_t size)
{
	return memory_held(calloc(count, size));
}

char *
memory_string(const char *string)
{
	return memory_held(strdup(string));
}

/* The capacity that holds `needed` elements. */
static size_t
grown(size_t capacity, size_t element_size, size_t needed)
{
	size_t doubled = capacity < 8 ? 8 : capacity * 2;
	size_t larger = doubled < needed ? needed : doubled;
	if (larger > SIZE_MAX / 2 / element_size) {
		memory_ended();
	}
	return larger;
}

/* `items` is the address of a typed pointer; memcpy reads and writes it without
 * pretending that it has another type. */
static void *
place_of(const void *items)
{
	void *place = NULL;
	memcpy(&place, items, sizeof place);
	return place;
}

void
array_reserve(void *items, size_t *capacity, size_t element_size, size_t needed)
{
	if (needed <= *capacity) {
		return;
	}
	size_t larger = grown(*capacity, element_size, needed);
	void *moved = memory_held(realloc(place_of(items), larger * element_size));
	memcpy(items, &moved, sizeof moved);
	*capacity = larger;
}

void
array_sort(
    void *items, size_t count, size_t size, int (*compare)(const void *, const void *))
{
	const char *item = items;
	size_t at = 1;
	while (at < count && compare(item + (at - 1) * size, item + at * size) <= 0) {
		at++;
	}
	if (at < count) {
		qsort(items, count, size, compare);
	}
}

struct arena_block {
	struct arena_block *next;
	size_t size;
	alignas(max_align_t) unsigned char bytes[];
};

enum { ARENA_BLOCK = 64 * 1024 };

static struct arena_block *
block_of(size_t size, struct arena_block *next)
{
	struct arena_block *block = memory_held(malloc(sizeof *block + size));
	block->next = next;
	block->size = size;
	return block;
}

void *
arena_more(struct arena *arena, size_t size)
{
	const size_t align = alignof(max_align_t);
	size_t rounded = (size + align - 1) / align * align;
	if (arena->first != NULL && rounded > ARENA_BLOCK) {
		/* behind the first block, which still has room for small pieces */
		struct arena_block *block = block_of(rounded, arena->first->next);
		arena->first->next = block;
		return block->bytes;
	}
	size_t block_size = rounded > ARENA_BLOCK ? rounded : ARENA_BLOCK;
	arena->first = block_of(block_size, arena->first);
	arena->next = (char *)arena->first->bytes + rounded;
	arena->left = block_size - rounded;
	return arena->first->bytes;
}

const char *
arena_bytes(struct arena *arena, const char *bytes, size_t length)
{
	char *copy = arena_room(arena, length + 1);
	copy[length] = '\0';
	return memcpy(copy, bytes, length);
}

const char *
arena_string(struct arena *arena, const char *string)
{
	return string == NULL ? NULL : arena_bytes(arena, string, strlen(string));
}

void
arena_reserve(struct arena *arena, void *items, size_t *capacity, size_t element_size,
    size_t needed)
{
	if (needed <= *capacity) {
		return;
	}
	size_t larger = grown(*capacity, element_size, needed);
	void *moved = arena_alloc(arena, larger * element_size);
	if (*capacity > 0) {
		memcpy(moved, place_of(items), *capacity * element_size);
	}
	memcpy(items, &moved, sizeof moved);
	*capacity = larger;
}

static void
free_chain(struct arena_block *block)
{
	while (block != NULL) {
		struct arena_block *next = block->next;
		free(block);
		block = next;
	}
}

void
arena_clear(struct arena *arena)
{
	free_chain(arena->first);
	*arena = (struct arena){0};
}

void
arena_reset(struct arena *arena)
{
	if (arena->first != NULL) {
		free_chain(arena->first->next);
		arena->first->next = NULL;
		arena->next = (char *)arena->first->bytes;
		arena->left = arena->first->size;
	}
}
