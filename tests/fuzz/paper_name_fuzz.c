/* Any bytes as the path of a paper: the name that comes of it is short, is UTF-8, leads nowhere,
 * and stays what it is when it is made safe again. */
#include "exchange/paper_file.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	SCOPED_TEXT path = {0};
	SCOPED_TEXT name = {0};
	SCOPED_TEXT again = {0};
	for (size_t i = 0; i < size; i++) {
		text_add_byte(&path, (char)data[i]);
	}
	paper_file_name(text_string(&path), &name);
	const char *string = text_string(&name);
	if (name.length == 0 || name.length > 120 || !utf8_valid(string, name.length) ||
	    string[0] == '.' || strpbrk(string, "/\\:*?\"<>|") != NULL) {
		abort();
	}
	for (const char *at = string; *at != '\0'; at++) {
		if ((unsigned char)*at < ' ' || *at == 0x7F) {
			abort();
		}
	}
	paper_file_name(string, &again);
	if (strcmp(string, text_string(&again)) != 0) {
		abort();
	}
	return 0;
}
