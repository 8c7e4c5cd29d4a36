#include "base/library.h"

#include "base/memory.h"

#include <dlfcn.h>
#include <stdio.h>

static _Noreturn void
end_without(const char *file)
{
	char why[512];
	const char *error = dlerror();
	(void)snprintf(why, sizeof why,
	    "%s, which this needs, can't be loaded (%s); install it or free memory", file,
	    error == NULL ? "no reason given" : error);
	program_ended(why);
}

void
library_load(const char *file, const char *const *names, size_t count, void **functions)
{
	void *library = dlopen(file, RTLD_LAZY | RTLD_LOCAL);
	if (library == NULL) {
		end_without(file);
	}
	for (size_t i = 0; i < count; i++) {
		functions[i] = dlsym(library, names[i]);
		if (functions[i] == NULL) {
			end_without(file);
		}
	}
}
