#include "page/page.h"

#include "desk/reckoning.h"

#include <sodium.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

const char *
page_value(const struct visit *visit, const char *name)
{
	const char *value = form_value(&visit->sent, name);
	value = value == NULL ? form_value(&visit->asked, name) : value;
	return value == NULL ? "" : value;
}

bool
page_has(const struct visit *visit, const char *name)
{
	return form_value(&visit->sent, name) != NULL;
}

void
site_put_list_away(struct site *site)
{
	text_clear(&site->list);
	free(site->list_name);
	site->list_name = NULL;
}

void
site_hold_list(struct site *site, const char *name, const char *bytes, size_t length)
{
	site_put_list_away(site);
	site->list_name = memory_string(name);
	text_add_bytes(&site->list, bytes, length);
}

bool
page_has_route(const struct visit *visit, const char *path)
{
	for (size_t i = 0; i < visit->route_count; i++) {
		if (strcmp(visit->routes[i].path, path) == 0) {
			return true;
		}
	}
	return false;
}

void
page_go(struct visit *visit, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	visit->answer->status = 303;
	visit->answer->is_page = true;
	text_reset(&visit->answer->location);
	text_add_arguments(&visit->answer->location, format, arguments);
	va_end(arguments);
}

void
page_try(struct visit *visit, struct desk *out)
{
	visit->site->desk(visit->site->context, out);
	out->mode = BOOK_TRIAL;
}

void
page_write(struct visit *visit, struct desk *out, const char *format, ...)
{
	va_list arguments;
	SCOPED_TEXT act = {0};
	visit->site->desk(visit->site->context, out);
	out->mode = BOOK_WRITE;
	text_add(&act, "page: ");
	va_start(arguments, format);
	text_add_arguments(&act, format, arguments);
	va_end(arguments);
	out->signature.act = arena_string(&visit->arena, text_string(&act));
}

const char *
page_digest(const char *words, char buffer[PAGE_DIGEST_SIZE])
{
	unsigned char bytes[(PAGE_DIGEST_SIZE - 1) / 2];
	(void)crypto_generichash(
	    bytes, sizeof bytes, (const unsigned char *)words, strlen(words), NULL, 0);
	return sodium_bin2hex(buffer, PAGE_DIGEST_SIZE, bytes, sizeof bytes);
}

void
page_say(struct visit *visit, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	text_add_arguments(&visit->site->said, format, arguments);
	va_end(arguments);
	text_add_byte(&visit->site->said, '\n');
}

void
page_words(const char *words, struct text *out)
{
	for (const char *at = words; *at != '\0'; at++) {
		if (*at != FIELD[0]) {
			text_add_byte(out, *at);
		}
	}
}

void
page_done(struct visit *visit, struct desk *desk)
{
	page_words(text_string(&desk->notes), &visit->site->said);
	reckoning_keep(desk);
	desk_clear(desk);
}
