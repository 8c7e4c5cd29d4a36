#include "gear/paper.h"

#include <string.h>

const struct paper_type PAPER_TYPES[] = {
    {"image/jpeg", "JPEG picture", "jpg jpeg jpe "},
    {"image/png", "PNG picture", "png "},
    {"image/webp", "WebP picture", "webp "},
    {"image/heic", "HEIC picture", "heic heif "},
    {"image/heif", "HEIF picture", "heif heic "},
    {"application/pdf", "PDF", "pdf "},
    {"image/tiff", "TIFF picture", "tif tiff "},
    {"text/plain", "plain text", "txt text "},
    {NULL, NULL, NULL},
};

const struct paper_type *
paper_type_find(const char *media_type)
{
	for (const struct paper_type *type = PAPER_TYPES; type->media_type != NULL;
	     type++) {
		if (strcmp(type->media_type, media_type) == 0) {
			return type;
		}
	}
	return NULL;
}
