/* Whether bytes are a whole changeset. SQLite 3.40 goes round for ever in one that ends inside the head of a
 * table, as one turned bit in its number of columns makes it, so it is looked through before. */
#include "book/changes.h"

#include <sqlite3.h>
#include <string.h>

/* What is left to look through. */
struct looking {
	const unsigned char *at;
	size_t left;
};

static bool
skip(struct looking *looking, uint64_t count)
{
	bool there = count <= looking->left;
	looking->at += there ? count : 0;
	looking->left -= there ? (size_t)count : 0;
	return there;
}

/* SQLite's integer of one to nine bytes, the high ones first, seven bits of each but the ninth. */
static bool
take_varint(struct looking *looking, uint64_t *out)
{
	*out = 0;
	for (int i = 0; i < 9 && looking->left > 0; i++) {
		unsigned char byte = *looking->at;
		(void)skip(looking, 1);
		if (i == 8) {
			*out = *out << 8 | byte;
			return true;
		}
		*out = *out << 7 | (byte & 0x7fU);
		if ((byte & 0x80U) == 0) {
			return true;
		}
	}
	return false;
}

/* A value: nothing (0: not told, 5: NULL), eight bytes (1, 2) or so many (3, 4). */
static bool
skip_value(struct looking *looking)
{
	uint64_t length = 0;
	unsigned char type = looking->left > 0 ? *looking->at : 6;
	if (!skip(looking, 1)) {
		return false;
	}
	switch (type) {
	case 0:
	case 5:
		return true;
	case 1:
	case 2:
		return skip(looking, 8);
	case 3:
	case 4:
		return take_varint(looking, &length) && skip(looking, length);
	default:
		return false;
	}
}

/* 'T', the number of columns, a byte for each, the name and a zero. */
static bool
skip_head(struct looking *looking, uint64_t *columns_out)
{
	if (!skip(looking, 1) || !take_varint(looking, columns_out) ||
	    *columns_out == 0 || !skip(looking, *columns_out)) {
		return false;
	}
	const unsigned char *end = memchr(looking->at, '\0', looking->left);
	return end != NULL && skip(looking, (uint64_t)(end - looking->at) + 1);
}

/* An operation (SQLITE_INSERT, _UPDATE or _DELETE), a byte, and the row; of an update both rows. */
static bool
skip_change(struct looking *looking, uint64_t columns)
{
	unsigned char operation = *looking->at;
	bool known = operation == SQLITE_INSERT || operation == SQLITE_DELETE ||
		     operation == SQLITE_UPDATE;
	bool there = columns > 0 && known && skip(looking, 2);
	uint64_t values = operation == SQLITE_UPDATE ? 2 * columns : columns;
	for (uint64_t i = 0; there && i < values; i++) {
		there = skip_value(looking);
	}
	return there;
}

bool
changeset_is_whole(const struct changeset *changes)
{
	struct looking looking = {changes->bytes, (size_t)changes->size};
	uint64_t columns = 0;
	while (looking.left > 0) {
		bool whole = *looking.at == 'T' ? skip_head(&looking, &columns)
						: skip_change(&looking, columns);
		if (!whole) {
			return false;
		}
	}
	return true;
}
