#include "cli/terminal.h"

#include <stdio.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

enum { LINE_MOST = 4096 };

bool
ask_is_possible(void)
{
	return isatty(STDIN_FILENO) != 0 && isatty(STDERR_FILENO) != 0;
}

/* Reads up to the end of the line, which is dropped. */
static bool
read_line(struct text *out, bool *there_out, struct fault *fault)
{
	int byte = getchar();
	*there_out = byte != EOF;
	while (byte != EOF && byte != '\n') {
		if (out->length == LINE_MOST) {
			return fault_set(fault, FAULT_INPUT,
			    "an answer is longer than %d bytes", (int)LINE_MOST);
		}
		text_add_byte(out, (char)byte);
		byte = getchar();
	}
	return true;
}

/* True when there is nothing in it that a person would not type. */
static bool
is_plain(const struct text *line)
{
	const char *bytes = text_string(line);
	for (size_t i = 0; i < line->length; i++) {
		unsigned char byte = (unsigned char)bytes[i];
		if ((byte < ' ' && byte != '\t') || byte == 0x7F) {
			return false;
		}
	}
	return utf8_valid(bytes, line->length);
}

bool
ask_line(const char *question, struct text *out, bool *there_out, struct fault *fault)
{
	SCOPED_TEXT line = {0};
	(void)fputs(question, stderr);
	(void)fflush(stderr);
	if (!read_line(&line, there_out, fault)) {
		return false;
	}
	if (line.length > 0 && line.bytes[line.length - 1] == '\r') {
		line.length--;
	}
	if (!is_plain(&line)) {
		return fault_set(fault, FAULT_INPUT,
		    "an answer holds what is no text: expected UTF-8 without control "
		    "characters");
	}
	const char *first = text_string(&line);
	size_t length = line.length;
	size_t blanks = strspn(first, " \t");
	blanks = blanks < length ? blanks : length;
	while (length > blanks && strchr(" \t", first[length - 1]) != NULL) {
		length--;
	}
	text_reset(out);
	text_add_bytes(out, first + blanks, length - blanks);
	return true;
}

bool
ask_yes(const char *question, bool *yes_out, struct fault *fault)
{
	SCOPED_TEXT whole = {0};
	SCOPED_TEXT answer = {0};
	bool there = false;
	add_typed(&whole, question);
	text_add(&whole, "\nGo on? [y/N] ");
	if (!ask_line(text_string(&whole), &answer, &there, fault)) {
		return false;
	}
	const char *word = text_string(&answer);
	*yes_out =
	    there && (text_same_letters(word, "y") || text_same_letters(word, "yes"));
	return true;
}

int
ask_choice(const char *answer, const char *choices, const char *letters)
{
	SCOPED_TEXT word = {0};
	for (int i = 0; letters[i] != '\0'; i++) {
		size_t length = strcspn(choices, "|");
		const char letter[] = {letters[i], '\0'};
		text_reset(&word);
		text_add_bytes(&word, choices, length);
		if (text_same_letters(answer, text_string(&word)) ||
		    text_same_letters(answer, letter)) {
			return i;
		}
		choices += length + (choices[length] == '|' ? 1 : 0);
	}
	return -1;
}

bool
ask_secret(const char *question, struct text *out, bool *there_out, struct fault *fault)
{
	struct termios shown = {0};
	if (tcgetattr(STDIN_FILENO, &shown) != 0) {
		return fault_set(
		    fault, FAULT_INPUT, "there is no terminal to ask for a secret at");
	}
	struct termios hidden = shown;
	hidden.c_lflag &= ~(tcflag_t)ECHO;
	if (tcsetattr(STDIN_FILENO, TCSAFLUSH, &hidden) != 0) {
		return fault_set(fault, FAULT_INPUT,
		    "the terminal would show the secret, so it is not asked for");
	}
	bool asked = ask_line(question, out, there_out, fault);
	(void)tcsetattr(STDIN_FILENO, TCSAFLUSH, &shown);
	(void)fputc('\n', stderr);
	return asked;
}
