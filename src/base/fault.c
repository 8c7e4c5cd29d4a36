#include "base/fault.h"

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

bool(fault_prefix)(struct fault *fault, const char *format, ...)
{
	char cause[sizeof fault->text];
	memcpy(cause, fault->text, sizeof cause);

	va_list args;
	va_start(args, format);
	int written = vsnprintf(fault->text, sizeof fault->text, format, args);
	va_end(args);
	if (written < 0 || (size_t)written >= sizeof fault->text) {
		return false;
	}
	int room = (int)sizeof fault->text - written;
	(void)snprintf(fault->text + written, (size_t)room, ": %.*s", room, cause);
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
