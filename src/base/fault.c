#include "base/fault.h"

#include "base/numbers.h"

#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

bool(fault_set)(struct fault *fault, enum fault_kind kind, const char *format, ...)
{
	va_list args;
	va_start(args, format);
	fault->kind = kind;
	(void)vsnprintf(fault->text, sizeof fault->text, format, args);
	va_end(args);
	return false;
}

bool(fault_file)(struct fault *fault, const char *act, const char *path)
{
	return fault_set(fault, FAULT_FILE, "%s %s: %s", act, path, strerror(errno));
}

/* As much of a text as ends with a whole character. */
static size_t
whole_length(const char *text, size_t length)
{
	while (length > 0 && (text[length] & 0xc0) == 0x80) {
		length--;
	}
	return length;
}

/* A prefix so long that the cause would be lost is cut: the cause says what to do. Where
 * both are long each has half: the prefix says what it is about. */
bool(fault_prefix)(struct fault *fault, const char *format, ...)
{
	char cause[sizeof fault->text];
	memcpy(cause, fault->text, sizeof cause);

	va_list args;
	va_start(args, format);
	int length = vsnprintf(fault->text, sizeof fault->text, format, args);
	va_end(args);
	size_t room = sizeof fault->text - strlen(": ") - 1;
	size_t before = LESSER(length < 0 ? 0 : (size_t)length, room);
	size_t told = LESSER(strlen(cause), GREATER(room / 2, room - before));
	told = whole_length(cause, told);
	size_t kept = whole_length(fault->text, LESSER(before, room - told));
	(void)snprintf(
	    fault->text + kept, sizeof fault->text - kept, ": %.*s", (int)told, cause);
	return false;
}

int
fault_exit_status(enum fault_kind kind)
{
	switch (kind) {
	case FAULT_NONE:
		return 0;
	case FAULT_USAGE:
	case FAULT_INPUT:
		return 2;
	case FAULT_BOOK:
	case FAULT_FILE:
		return 3;
	}
	return 3;
}
