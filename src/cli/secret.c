#include "cli/terminal.h"
#include "desk/files.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { MOST_BYTES = 1024 };

void
secret_clear(struct text *secret)
{
	/* volatile: otherwise the compiler may remove writes that are never read */
	volatile char *bytes = secret->bytes;
	for (size_t i = 0; i < secret->length; i++) {
		bytes[i] = '\0';
	}
	text_clear(secret);
}

/* Refuses a file that others may read; the file's group counts as others. */
static bool
check_rights(const char *path, struct fault *fault)
{
	struct stat status;
	if (stat(path, &status) != 0) {
		return true; /* a failure to read it is reported when it is read */
	}
	if ((status.st_mode & (S_IRWXG | S_IRWXO)) != 0) {
		return fault_set(fault, FAULT_INPUT,
		    "%s can be read by others on this machine (its rights are %03o); "
		    "\"chmod 600\" mends that",
		    path, (unsigned)(status.st_mode & 0777));
	}
	return true;
}

static bool
read_file(const char *path, struct text *out, struct fault *fault)
{
	SCOPED_SECRET whole = {0};
	if (!check_rights(path, fault) || !file_read(path, &whole, fault)) {
		return false;
	}
	text_add_bytes(out, text_string(&whole), strcspn(text_string(&whole), "\r\n"));
	return true;
}

bool
secret_read(const char *file, const char *variable, const char *question,
    struct text *out, struct fault *fault)
{
	const char *value =
	    variable == NULL ? NULL : getenv(variable); // NOLINT(concurrency-mt-unsafe)
	bool there = false;
	if (file != NULL) {
		if (!read_file(file, out, fault)) {
			return fault_prefix(fault, "the password");
		}
	} else if (value != NULL) {
		text_add(out, value);
	} else if (!ask_is_possible()) {
		return fault_set(fault, FAULT_INPUT,
		    "there is no password: expected a file named by --password-file, %s%s%sor "
		    "a terminal to ask at",
		    variable == NULL ? "" : "the environment variable ",
		    variable == NULL ? "" : variable, variable == NULL ? "" : ", ");
	} else if (!ask_secret(question, out, &there, fault)) {
		return false;
	}
	if (out->length == 0 || out->length > MOST_BYTES) {
		return fault_set(fault, FAULT_INPUT,
		    "the password is %s; expected 1 to %d bytes",
		    out->length == 0 ? "blank" : "too long", (int)MOST_BYTES);
	}
	return true;
}
