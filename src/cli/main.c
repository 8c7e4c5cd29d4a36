/* The program: runs the command line and prints the fault, if there is one. */
#include "cli/command.h"
#include "cli/terminal.h"

#include <signal.h>
#include <string.h>

int
main(int argc, char *argv[])
{
	/* a reader that has gone away, or a file at its limit of size, is a failed write,
	 * and does not end the program at once */
	(void)signal(SIGPIPE, SIG_IGN);
	(void)signal(SIGXFSZ, SIG_IGN);

	struct fault fault = {0};
	int status = 0;
	struct command_line line = {0};
	if (argc > 1) {
		line = (struct command_line){
		    (const char *const *)argv + 1, (size_t)argc - 1};
	}
	if (!dispatch(line, &status, &fault)) {
		remark_write("", fault.text, strlen(fault.text));
		return fault_exit_status(fault.kind);
	}
	return status;
}
