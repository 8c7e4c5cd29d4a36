#include "base/memory.h"
#include "cli/serving.h"
#include "desk/files.h"

#include <errno.h>
#include <fcntl.h>
#include <sodium.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <time.h>
#include <unistd.h>

enum { DIGEST_BYTES = 16, ADDRESS_MOST = 200 };

/* Adds a name for the book that is the same from whatever folder it is opened. */
static void
add_name(const char *book_path, struct text *out)
{
	unsigned char digest[DIGEST_BYTES];
	char hex[2 * DIGEST_BYTES + 1];
	SCOPED_TEXT whole = {0};
	struct fault none = {0};
	/* a book that does not exist yet is named by the path that was given */
	if (!file_whole_path(book_path, &whole, &none)) {
		text_reset(&whole);
		text_add(&whole, book_path);
	}
	(void)crypto_generichash(digest, sizeof digest,
	    (const unsigned char *)text_string(&whole), whole.length, NULL, 0);
	text_add(out, "becket-page-");
	text_add(out, sodium_bin2hex(hex, sizeof hex, digest, sizeof digest));
}

static void
add_path(const char *book_path, struct text *out)
{
	const char *runtime = getenv("XDG_RUNTIME_DIR"); // NOLINT(concurrency-mt-unsafe)
	const char *slash = strrchr(book_path, '/');
	if (runtime != NULL && runtime[0] == '/') {
		text_add_format(out, "%s/", runtime);
	} else if (slash != NULL) {
		text_add_bytes(out, book_path, (size_t)(slash - book_path) + 1);
	}
	add_name(book_path, out);
}

/* Waits a moment for a program that has only just taken the place to write its
 * address. */
static void
read_address(int descriptor, struct text *out)
{
	const struct timespec moment = {0, 50L * 1000 * 1000};
	for (int turn = 0; turn < 20 && out->length == 0; turn++) {
		char bytes[ADDRESS_MOST];
		ssize_t count = pread(descriptor, bytes, sizeof bytes, 0);
		if (count > 0) {
			text_add_bytes(out, bytes, (size_t)count);
		} else {
			(void)nanosleep(&moment, NULL);
		}
	}
}

bool
page_address_take(const char *book_path, struct page_address *out,
    struct text *address_out, struct fault *fault)
{
	SCOPED_TEXT path = {0};
	add_path(book_path, &path);
	const char *name = text_string(&path);
	if (!folders_make(name, fault)) {
		return false;
	}
	int descriptor = open(name, O_RDWR | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0600);
	if (descriptor < 0) {
		return fault_set(fault, FAULT_FILE,
		    "can't keep where the page is in %s: %s", name, strerror(errno));
	}
	if (flock(descriptor, LOCK_EX | LOCK_NB) == 0) {
		*out = (struct page_address){descriptor, memory_string(name)};
		return true;
	}
	read_address(descriptor, address_out);
	(void)close(descriptor);
	return address_out->length > 0 ||
	       fault_set(fault, FAULT_FILE,
		   "another becket has the page of this book and has not said where; end it, "
		   "or take %s away",
		   name);
}

bool
page_address_write(
    const struct page_address *place, const char *address, struct fault *fault)
{
	return (ftruncate(place->descriptor, 0) == 0 &&
		   lseek(place->descriptor, 0, SEEK_SET) == 0 &&
		   bytes_write(place->descriptor, address, strlen(address))) ||
	       fault_set(fault, FAULT_FILE, "can't keep where the page is in %s: %s",
		   place->path, strerror(errno));
}

void
page_address_leave(struct page_address *place)
{
	if (place->path != NULL) {
		(void)unlink(place->path);
		(void)close(place->descriptor);
		free(place->path);
		*place = (struct page_address){0};
	}
}
