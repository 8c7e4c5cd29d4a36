#!/usr/bin/env python3
"""The help, the manual page and the completions name the same commands and options.

    words_test.py BECKET

Reads what the program says in each place and compares the words. The shells' own parsers
check the completions where they are installed, scdoc and groff the manual page, in which the
help of every option must be found once it is set.
"""
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BECKET, check, end, skip  # noqa: E402



def ask(*words):
    environment = dict(os.environ, BECKET_BOOK="/nonexistent/book.db", HOME="/nonexistent")
    done = subprocess.run([BECKET, *words], capture_output=True, text=True, check=False,
                          env=environment)
    if done.returncode != 0:
        sys.exit(f"becket {' '.join(words)} ended with {done.returncode}: {done.stderr}")
    return done.stdout


def topics_are_told():
    """Each topic of the overview has words of its own that fit the page, and the bash completion
    knows it."""
    topics = re.findall(r"^  ([a-z]+)  ", section(ask("help"), 'topics of "becket help TOPIC"'), re.M)
    completed = re.search(r'\thelp\) words="([^"]*)', ask("help", "--completion", "bash")).group(1)
    check("there are topics", {"kinds", "dates", "prices", "sheets", "reminders", "books"} == set(topics))
    for topic in topics:
        words = ask("help", topic)
        check(f"help {topic} fits the page", len(words) > 400 and
              all(len(line) <= 80 for line in words.splitlines()), words)
        check(f"help {topic} is completed", topic in completed.split(), completed)


def section(text, heading):
    """The lines below a heading up to the next blank one."""
    found = re.search(rf"^{heading}:\n((?:  .*\n)+)", text, re.MULTILINE)
    return found.group(1) if found else ""


def options_of_help(text):
    both = section(text, "options") + section(text, "options of every command")
    return set(re.findall(r"^  --([a-z-]+)", both, re.MULTILINE))


def options_of_man(text, command):
    part = re.search(rf"^## becket {command}\n(.*?)(?=^#)", text, re.DOTALL | re.MULTILINE)
    return set(re.findall(r"^\*--([a-z-]+)\*", part.group(1) if part else "", re.MULTILINE))


def options_of_bash(text, command):
    """The words a command offers, and the common ones."""
    line = re.search(rf'^\t{command}\) words="([^"]*)"', text, re.MULTILINE)
    common = re.search(r"^\tlocal common='([^']*)'", text, re.MULTILINE)
    words = (line.group(1) if line else "").replace("$common", common.group(1))
    return set(re.findall(r"--([a-z-]+)", words))


def options_of_zsh(text, command):
    part = re.search(rf"^\t{command}\)\n(.*?) ;;$", text, re.DOTALL | re.MULTILINE)
    return set(re.findall(r"^\t\t\t'\*?--([a-z-]+)\[", part.group(1) if part else "",
                          re.MULTILINE))


def options_of_fish(text, command):
    """Those of the command, and those of every command."""
    return set(re.findall(rf"^complete -c becket (?:-n '__becket_is {command}' )?-l ([a-z-]+)", text,
                          re.MULTILINE))


def check_command(command, man, bash, fish, zsh):
    text = ask("help", command)
    wanted = options_of_help(text)
    common = options_of_help(ask("help"))
    check(f"{command} --help is what help {command} says", ask(command, "--help") == text)
    usage = text.split("\n\n")[0]
    shown = set(re.findall(r"--([a-z-]+)", usage))
    check(f"the usage of {command} has its options",
          shown == options_of_help("options:\n" + section(text, "options")))
    for name, found in (("manual", options_of_man(man, command) | (common & wanted)),
                        ("bash completion", options_of_bash(bash, command)),
                        ("fish completion", options_of_fish(fish, command)),
                        ("zsh completion", options_of_zsh(zsh, command))):
        check(f"the {name} has the options of {command}", found == wanted,
              ", ".join(sorted(found ^ wanted)))


def check_tool(name, command, text):
    if shutil.which(command[0]) is None:
        skip(name, f"{command[0]} is not installed")
        return
    with tempfile.NamedTemporaryFile("w+", suffix=".txt") as file:
        file.write(text)
        file.flush()
        file.seek(0)
        done = subprocess.run([*command, *([] if command[0] == "scdoc" else [file.name])],
                              stdin=file, capture_output=True, text=True, check=False)
    check(name, done.returncode == 0 and not done.stderr, done.stderr)


def helps(text):
    """What the help says of each option, as one line each."""
    both = section(text, "options") + section(text, "options of every command")
    for option in re.split(r"^  --", both, flags=re.MULTILINE)[1:]:
        yield " ".join(re.sub(r"^[a-z-]+(?: [^a-z ]\S*)?\s+", "", option).split())


def check_set_page(commands, man):
    """The page as a reader sees it: set without a warning, and with nothing lost."""
    if shutil.which("scdoc") is None or shutil.which("groff") is None:
        skip("the manual page is set", "scdoc or groff is not installed")
        return
    page = subprocess.run(["scdoc"], input=man, capture_output=True, text=True, check=True)
    done = subprocess.run(["groff", "-ww", "-man", "-Tutf8", "-K", "utf8", "-P-cbou", "-rLL=2000n"],
                          input=page.stdout, capture_output=True, text=True, check=False)
    check("groff sets the manual without a warning", done.returncode == 0 and not done.stderr,
          done.stderr)
    shown = " ".join(done.stdout.split())
    lost = [f"{command}: {words}" for command in commands for words in helps(ask("help", command))
            if words not in shown]
    check("the manual as it is set has the help of every option", not lost, "; ".join(lost))


def check_command_pages(commands):
    """A page of its own for each command, set without a warning, with every option's help."""
    if shutil.which("scdoc") is None or shutil.which("groff") is None:
        skip("each command's page is set", "scdoc or groff is not installed")
        return
    wrong = []
    for command in commands:
        page = subprocess.run(["scdoc"], input=ask("help", "--man", command), capture_output=True,
                              text=True, check=False)
        done = subprocess.run(
            ["groff", "-ww", "-man", "-Tutf8", "-K", "utf8", "-P-cbou", "-rLL=2000n"],
            input=page.stdout, capture_output=True, text=True, check=False)
        shown = " ".join(done.stdout.split())
        wrong += [f"{command}: {done.stderr}{page.stderr}"] if done.stderr + page.stderr else []
        wrong += [f"{command}: {words}" for words in helps(ask("help", command)) if words not in shown]
        wrong += [] if f"becket-{command} - " in shown else [f"{command}: no name"]
    check("each command has a page of its own, with the help of every option", not wrong,
          "; ".join(wrong))
    check("the pages are those of the commands", ask("help", "--names", "commands").split() == commands)


def main():
    overview = ask("help")
    man, bash, fish, zsh = (ask("help", "--man"), *(ask("help", "--completion", shell)
                                                    for shell in ("bash", "fish", "zsh")))
    commands = re.findall(r"^  ([a-z-]+)(?: |$)", section(overview, "commands"), re.MULTILINE)
    check("the commands are listed by name",
          len(commands) > 10 and commands == sorted(commands), str(commands))
    check("the manual has every command",
          re.findall(r"^## becket ([a-z-]+)$", man, re.MULTILINE) == commands)
    offered = re.search(r"^\tlocal commands='([^']*)'", bash, re.MULTILINE).group(1).split()
    check("bash completion has every command", offered == commands)
    described = re.search(r"commands=\(\n(.*?)\n\t\)", zsh, re.DOTALL).group(1)
    check("zsh completion has every command", re.findall(r"'([a-z-]+):", described) == commands)
    check("fish completion has every command",
          re.findall(r"^complete -c becket -n __becket_is -a ([a-z-]+) ", fish, re.MULTILINE) == commands)
    for command in commands:
        check_command(command, man, bash, fish, zsh)
    check_tool("scdoc takes the manual", ["scdoc"], man)
    check_set_page(commands, man)
    check_command_pages(commands)
    check_tool("bash takes the completion", ["bash", "-n"], bash)
    check_tool("fish takes the completion", ["fish", "--no-execute"], fish)
    check_tool("zsh takes the completion", ["zsh", "-n"], zsh)
    wide = [line for command in commands for line in ask("help", command).splitlines()
            if len(line) > 80]
    check("the help fits 80 columns", not wide, "; ".join(wide))
    topics_are_told()
    end()


main()
