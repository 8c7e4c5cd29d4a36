#include "base/memory.h"

#include <stdalign.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

bool
array_reserve(void *items, size_t *capacity, size_t element_size, size_t needed,
    struct fault *fault)
{
	if (needed <= *capacity) {
		return true;
	}
	size_t grown = *capacity < 8 ? 8 : *capacity * 2;
	if (grown < needed) {
		grown = needed;
	}
	if (grown > SIZE_MAX / 2 / element_size) {
		return fault_memory(fault);
	}
	/* `items` is the address of a typed pointer; memcpy reads and writes it without
	 * pretending that it has another type. */
	void *old = NULL;
	memcpy(&old, items, sizeof old);
	void *moved = realloc(old, grown * element_size);
	if (moved == NULL) {
		return fault_memory(fault);
	}
	memcpy(items, &moved, sizeof moved);
	*capacity = grown;
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
