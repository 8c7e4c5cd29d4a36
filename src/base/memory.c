#include "base/memory.h"

#include <stdalign.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* The capacity that holds `needed` elements; 0 when no memory is that large. */
static size_t
grown(size_t capacity, size_t element_size, size_t needed)
{
	size_t doubled = capacity < 8 ? 8 : capacity * 2;
	size_t larger = doubled < needed ? needed : doubled;
	return larger > SIZE_MAX / 2 / element_size ? 0 : larger;
}

/* `items` is the address of a typed pointer; memcpy reads and writes it without pretending
 * that it has another type. */
static void *
place_of(const void *items)
{
	void *place = NULL;
	memcpy(&place, items, sizeof place);
	return place;
}

bool
array_reserve(void *items, size_t *capacity, size_t element_size, size_t needed,
    struct fault *fault)
{
	if (needed <= *capacity) {
		return true;
	}
	size_t larger = grown(*capacity, element_size, needed);
	void *moved =
	    larger == 0 ? NULL : realloc(place_of(items), larger * element_size);
	if (moved == NULL) {
		return fault_memory(fault);
	}
	memcpy(items, &moved, sizeof moved);
	*capacity = larger;
	return true;
}

struct arena_block {
	struct arena_block *next;
	size_t size;
	alignas(max_align_t) unsigned char bytes[];
};

enum { ARENA_BLOCK = 64 * 1024 };

void *
arena_alloc(struct arena *arena, size_t size)
{
	const size_t align = alignof(max_align_t);
	if (size > SIZE_MAX / 2) {
		return NULL;
	}
	size_t rounded = (size + align - 1) / align * align;
	if (arena->first == NULL || arena->first->size - arena->used < rounded) {
		size_t block_size = rounded > ARENA_BLOCK ? rounded : ARENA_BLOCK;
		struct arena_block *block = malloc(sizeof *block + block_size);
		if (block == NULL) {
			return NULL;
		}
		block->next = arena->first;
		block->size = block_size;
		arena->first = block;
		arena->used = 0;
	}
	void *memory = arena->first->bytes + arena->used;
	arena->used += rounded;
	return memset(memory, 0, rounded);
}

const char *
arena_string(struct arena *arena, const char *string)
{
	if (string == NULL) {
		return NULL;
	}
	size_t size = strlen(string) + 1;
	char *copy = arena_alloc(arena, size);
	return copy == NULL ? NULL : memcpy(copy, string, size);
}

bool
arena_reserve(struct arena *arena, void *items, size_t *capacity, size_t element_size,
    size_t needed, struct fault *fault)
{
	if (needed <= *capacity) {
		return true;
	}
	size_t larger = grown(*capacity, element_size, needed);
	void *moved = larger == 0 ? NULL : arena_alloc(arena, larger * element_size);
	if (moved == NULL) {
		return fault_memory(fault);
	}
	if (*capacity > 0) {
		memcpy(moved, place_of(items), *capacity * element_size);
	}
	memcpy(items, &moved, sizeof moved);
	*capacity = larger;
	return true;
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
	}
	arena->used = 0;
}
