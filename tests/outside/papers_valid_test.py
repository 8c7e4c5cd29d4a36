"""Every page that is written to be printed is valid HTML and CSS, as the Nu Html Checker judges
(the checker of the W3C, from npm, run by Java), and each sheet of a survey file bears the boat's
name and its number, as Debian's chromium prints it and pdftotext reads it. Names are such as would
break a careless style or markup."""
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import BUILD, Book, check, demonstration, end, same, scratch, skip, skip_without  # noqa: E402

CHECKER = "vnu-jar@26.9.27"
BOATS = ["Ærlig's \"Sjø\" & <b>Gang</b> \\ } 100%", "Ναύπλιο*/ {", "Quillfish"]


def checker():
    """The checker's archive, fetched once into the build's folder; None where it can't be had."""
    folder = BUILD / "vnu"
    jar = folder / "node_modules/vnu-jar/build/dist/vnu.jar"
    if not jar.exists():
        folder.mkdir(exist_ok=True)
        subprocess.run(["npm", "install", "--no-audit", "--no-fund", "--silent", "--prefix", str(folder),
                        CHECKER], capture_output=True, check=False, timeout=300)
    return jar if jar.exists() else None


def pages(folder):
    """All of them, from the demonstration and from boats with hard names."""
    for book in demonstration(folder):
        out = book.folder / book.path.stem
        out.mkdir()
        book.must("muster", "--survey", out / "survey", status=(0, 1))
        book.must("shore-papers", out / "papers")
        book.must("years", "3", "--html", out / "years.html")
    hard = Book(Path(folder) / "hard.db")
    for number, boat in enumerate(BOATS):
        hard.must("vessel", boat, "--sheet", "us-recreational", "--sheet", "practice", "--length", "9",
                  "--persons", "2", "--base", boat)
        for piece in range(20):
            hard.must("enter", "lifejacket-auto", "--vessel", boat, "--tag", f"LJ-{number}-{piece}",
                      "--serial", f"S{number}-{piece * 7}", "--made", "2019-05", "--place", boat,
                      "--description", boat, "--served", "2024-10-01", "--serials-are-right")
    (hard.folder / "hard").mkdir()
    hard.must("muster", "--survey", hard.folder / "hard/survey", status=(0, 1))
    hard.must("shore-papers", hard.folder / "hard/papers")
    return sorted(Path(folder).glob("*/**/*.html"))


def printed(page, folder):
    """The text of each sheet that chromium prints."""
    pdf = Path(folder) / "page.pdf"
    pdf.unlink(missing_ok=True)
    subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={folder}/chromium",
                    "--no-pdf-header-footer", f"--print-to-pdf={pdf}", page.as_uri()],
                   capture_output=True, check=False, timeout=120, env={**os.environ, "HOME": str(folder)})
    text = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, encoding="utf-8",
                          check=False).stdout
    return text.split("\f")[:-1]


def sheets(folder, all_pages):
    if shutil.which("chromium") is None or shutil.which("pdftotext") is None:
        skip("what is printed", "chromium or pdftotext is not installed")
        return
    surveys = [page for page in all_pages if "hard" in page.parts and "survey" in page.parts]
    for page in surveys:
        text = printed(page, folder)
        name = re.search(r"Safety gear of (.*)", text[0])[1].strip()
        foot = [re.search(r"page (\d+) of (\d+)", sheet) for sheet in text]
        same(f"{page.name}: every sheet has its number", [(str(n + 1), str(len(text))) for n in range(len(text))],
             [found and found.groups() for found in foot])
        # the first sheet has the name in its heading, too
        check(f"{page.name}: every sheet bears the boat", name in BOATS and all(
            f"Safety gear of {name}" in sheet for sheet in text), f"{name!r}\n{text[-1]}")
    for name, foot in (("dockets.html", "Hand-in dockets"), ("return-list.html", "Return list")):
        text = printed(next(page for page in all_pages if "fleet" in page.parts and page.name == name), folder)
        check(f"{name}: every sheet says what it is, and its number", len(text) > 5 and all(
            re.search(rf"{foot} +page {n + 1} of {len(text)}", sheet) for n, sheet in enumerate(text)), text[-1])
    owner = [page for page in all_pages if "owner" in page.parts and "survey" in page.parts]
    same("the owner's survey file is two sheets", [2], [len(printed(page, folder)) for page in owner])


def main():
    skip_without("the papers' validity", "java", "npm")
    with scratch() as folder:
        all_pages = pages(folder)
        check(f"there are {len(all_pages)} pages", len(all_pages) > 20)
        jar = checker()
        if jar is None:
            skip("the Nu Html Checker", "npm can't fetch it")
        else:
            done = subprocess.run(["java", "-jar", str(jar), "--errors-only", "--format", "gnu",
                                   *map(str, all_pages)], capture_output=True, encoding="utf-8", check=False)
            errors = done.stderr.strip().splitlines()
            check(f"the Nu Html Checker finds no error on {len(all_pages)} pages",
                  done.returncode == 0 and errors == [], "\n".join(errors[:20]))
        sheets(folder, all_pages)
    end()


main()
