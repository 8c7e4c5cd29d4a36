/* What a file is, whatever it is called, and what it may be called when it comes out. */
#include "exchange/paper_file.h"

#include "becket_test.h"

#include <string.h>

/* The first bytes by which each format is known, from its own specification: ISO 10918-1
 * (JPEG), ISO 15948 (PNG), RFC 9649 (WebP), ISO 14496-12 with 23008-12 (HEIC), TIFF 6.0,
 * ISO 32000 (PDF). */
#define JPEG "\xFF\xD8\xFF\xE0\0\x10JFIF\0\1\1\0\0\1\0\1\0\0"
#define PNG "\x89PNG\r\n\x1A\n\0\0\0\rIHDR\0\0\0\x10\0\0\0\x10\x08\2\0\0\0"
#define WEBP "RIFF\x24\x10\0\0WEBPVP8 \x18\x10\0\0"
#define HEIC                                                                             \
	"\0\0\0\x18"                                                                     \
	"ftypheic\0\0\0\0mif1heic"
#define TIFF "II*\0\x08\0\0\0\1\0\0\1\3\0"
#define PDF "%PDF-1.4\n"

struct sample {
	const char *name;
	const char *bytes;
	size_t length;
	const char *expected; /* media type, or words of the refusal */
};

#define SAMPLE(name, bytes, expected)                                                    \
	{                                                                                \
		name, bytes, sizeof(bytes) - 1, expected                                 \
	}

static bool
type_of(const struct sample *sample, const struct paper_type **out, struct fault *fault)
{
	SCOPED_TEXT bytes = {0};
	text_add_bytes(&bytes, sample->bytes, sample->length);
	return paper_file_type(sample->name, &bytes, out, fault);
}

TEST(a_file_is_what_its_bytes_are)
{
	static const struct sample SAMPLES[] = {
	    SAMPLE("a.jpg", JPEG "then anything", "image/jpeg"),
	    SAMPLE("a.JPEG", JPEG, "image/jpeg"),
	    SAMPLE("a.b.png", PNG "\0\1\2", "image/png"),
	    SAMPLE("a.webp", WEBP "abc", "image/webp"),
	    SAMPLE("a.heic", HEIC "abc", "image/heic"),
	    SAMPLE("a.heif", HEIC "abc", "image/heic"),
	    SAMPLE("a.tif", TIFF "\0\0\0\0\0\0\0\0", "image/tiff"),
	    SAMPLE("a.pdf", PDF "\xE2\xE3\xCF\xD3", "application/pdf"),
	    SAMPLE("a.txt", "Made 03/2020, serial Q-17.\n", "text/plain"),
	    SAMPLE("a.txt",
		"Gr\xC3\xBC\xC3\x9F"
		"e\n",
		"text/plain"),
	    /* these names have no ending, so they say nothing */
	    SAMPLE("scan", JPEG, "image/jpeg"),
	    SAMPLE("scan of 2.11.2026", JPEG, "image/jpeg"),
	    SAMPLE("No. seventeen", PNG, "image/png"),
	    SAMPLE("_jpg", PDF, "application/pdf"),
	};
	for (size_t i = 0; i < sizeof SAMPLES / sizeof SAMPLES[0]; i++) {
		const struct paper_type *type = NULL;
		struct fault fault = {0};
		if (!type_of(&SAMPLES[i], &type, &fault)) {
			fail_msg("%s: %s", SAMPLES[i].name, fault.text);
		}
		assert_string_equal(type->media_type, SAMPLES[i].expected);
	}
}

TEST(what_is_not_taken_and_what_lies_is_refused_with_words)
{
	static const struct sample SAMPLES[] = {
	    SAMPLE("a.jpg", PNG, "ends in \".jpg\", but its content is PNG picture"),
	    SAMPLE("a.pdf", JPEG, "but its content is JPEG picture"),
	    SAMPLE("a.png.exe", PNG, "ends in \".exe\""),
	    SAMPLE("a.docx", PDF, "expected it to end in \".pdf\""),
	    SAMPLE("a.jp", JPEG, "ends in \".jp\""),
	    SAMPLE("a.jpgx", JPEG, "ends in \".jpgx\""),
	    SAMPLE("a.txt", "<html><body>x</body></html>\n", "text/html"),
	    SAMPLE("a.txt", "#!/bin/sh\nrm x\n", "not taken"),
	    SAMPLE("a.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\"><script/></svg>",
		"image/svg+xml"),
	    SAMPLE("a.png", "MZ\x90\0\3\0\0\0\4\0\0\0\xFF\xFF\0\0", "not taken"),
	    SAMPLE("a.zip", "PK\3\4\x14\0\0\0\0\0", "not taken"),
	    SAMPLE("a.gif", "GIF89a\1\0\1\0", "image/gif"),
	    SAMPLE("a.txt", "\1\2\3\4", "not taken"),
	    SAMPLE("a.txt", "", "empty"),
	};
	for (size_t i = 0; i < sizeof SAMPLES / sizeof SAMPLES[0]; i++) {
		const struct paper_type *type = NULL;
		struct fault fault = {0};
		if (type_of(&SAMPLES[i], &type, &fault)) {
			fail_msg("%s (sample %zu) was taken as %s", SAMPLES[i].name, i,
			    type->media_type);
		}
		assert_int_equal(fault.kind, FAULT_INPUT);
		if (strstr(fault.text, SAMPLES[i].expected) == NULL) {
			fail_msg("\"%s\" does not say \"%s\"", fault.text,
			    SAMPLES[i].expected);
		}
	}
}

TEST(a_name_leads_nowhere_and_hides_nothing)
{
	static const struct {
		const char *path;
		const char *expected;
	} NAMES[] = {
	    {"label.jpg", "label.jpg"},
	    {"/home/somebody/My raft.jpg", "My raft.jpg"},
	    {"../../etc/passwd", "passwd"},
	    {"..", "paper"},
	    {"folder/", "paper"},
	    {"", "paper"},
	    {".profile", "_profile"},
	    {"..\\..\\x.jpg", "_._.._x.jpg"},
	    {"C:\\x.jpg", "C__x.jpg"},
	    {"a\nb\tc\x1B[2J.jpg", "a_b_c_[2J.jpg"},
	    {"a\x7F.jpg", "a_.jpg"},
	    {"<script>\"x\"|?*.png", "_script__x____.png"},
	    {"name. . ", "name"},
	    {" x.jpg", "_x.jpg"},
	    /* U+202E turns what follows round; U+200B is not seen; U+0085 is a control */
	    {"a\xE2\x80\xAEgpj.exe", "a_gpj.exe"},
	    {"a\xE2\x80\x8B.jpg", "a_.jpg"},
	    {"a\xC2\x85.jpg", "a_.jpg"},
	    {"a\xFF\xC3.jpg", "a__.jpg"},
	    /* letters of the world stay */
	    {"Bl\xC3\xA5skjell \xCE\x9C\xCE\xB5\xCE\xBB \xE6\xB5\xB7 \xF0\x9F\x9B\x9F.jpg",
		"Bl\xC3\xA5skjell \xCE\x9C\xCE\xB5\xCE\xBB \xE6\xB5\xB7 \xF0\x9F\x9B\x9F.jpg"},
	};

	for (size_t i = 0; i < sizeof NAMES / sizeof NAMES[0]; i++) {
		SCOPED_TEXT name = {0};
		paper_file_name(NAMES[i].path, &name);
		assert_string_equal(text_string(&name), NAMES[i].expected);
	}
}

TEST(a_long_name_is_cut_between_letters_and_keeps_its_ending)
{
	SCOPED_TEXT path = {0};
	SCOPED_TEXT name = {0};
	for (int i = 0; i < 100; i++) {
		text_add(&path, "\xC3\xA5");
	}
	text_add(&path, ".jpeg");
	paper_file_name(text_string(&path), &name);
	/* 120 bytes: 57 letters of two bytes, one byte unused, ".jpeg" */
	assert_int_equal(name.length, 57 * 2 + 5);
	assert_true(utf8_valid(text_string(&name), name.length));
	assert_string_equal(text_string(&name) + name.length - 5, ".jpeg");
}

TEST(a_name_that_goes_out_begins_with_the_number_and_is_made_safe_again)
{
	/* as a book might hold it that somebody else has written to */
	const struct paper paper = {.number = 12, .name = "../../.profile"};
	SCOPED_TEXT name = {0};
	paper_out_name(&paper, &name);
	assert_string_equal(text_string(&name), "12-_profile");
}

RUN_TESTS(NULL, NULL)
