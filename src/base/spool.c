#include "base/spool.h"

#include "base/numbers.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* So many bytes are gathered before they are written. */
enum { SPOOL_GATHERED = 256 * 1024 };

void
spool_clear(struct spool *spool)
{
	if (spool->file > 0) {
		(void)close(spool->file - 1);
	}
	text_clear(&spool->rest);
	*spool = (struct spool){0};
}

/* Opens a file without a name; none where that can't be. */
static void
open_file(struct spool *spool)
{
	const char *folder = getenv("TMPDIR"); // NOLINT(concurrency-mt-unsafe)
	SCOPED_TEXT path = {0};
	bool named = folder != NULL && folder[0] != '\0';
	text_add_format(&path, "%s/becket-XXXXXX", named ? folder : "/tmp");
	int file = mkstemp(path.bytes);
	if (file >= 0) {
		(void)unlink(path.bytes);
	}
	spool->file = file + 1;
}

/* Writes what is gathered to the file; what it does not take stays where it is, for good. */
static void
write_gathered(struct spool *spool)
{
	struct text *rest = &spool->rest;
	size_t written = 0;
	if (spool->file == 0) {
		open_file(spool);
	}
	while (spool->file > 0 && written < rest->length) {
		ssize_t some = pwrite(spool->file - 1, rest->bytes + written,
		    rest->length - written, (off_t)(spool->in_file + written));
		if (some < 0 && errno == EINTR) {
			continue;
		}
		if (some <= 0) {
			break;
		}
		written += (size_t)some;
	}
	if (written < rest->length) {
		spool->in_memory = true;
		return;
	}
	spool->in_file += written;
	text_reset(rest);
}

void
spool_add(struct spool *spool, const char *bytes, size_t length)
{
	text_add_bytes(&spool->rest, bytes, length);
	spool->length += length;
	if (spool->rest.length >= SPOOL_GATHERED && !spool->in_memory) {
		write_gathered(spool);
	}
}

bool
spool_read(
    const struct spool *spool, size_t at, char *out, size_t length, struct fault *fault)
{
	while (length > 0 && at < spool->in_file) {
		size_t there = spool->in_file - at;
		ssize_t some =
		    pread(spool->file - 1, out, LESSER(length, there), (off_t)at);
		if (some < 0 && errno == EINTR) {
			continue;
		}
		if (some <= 0) {
			return fault_set(fault, FAULT_FILE,
			    "reading back what was kept in a temporary file failed");
		}
		out += some;
		at += (size_t)some;
		length -= (size_t)some;
	}
	if (length > 0) {
		memcpy(out, spool->rest.bytes + (at - spool->in_file), length);
	}
	return true;
}

bool
spool_read_all(const struct spool *spool, struct text *out, struct fault *fault)
{
	size_t before = out->length;
	if (spool->length == 0 ||
	    spool_read(spool, 0, text_grow(out, spool->length), spool->length, fault)) {
		return true;
	}
	text_cut(out, before);
	return false;
}
