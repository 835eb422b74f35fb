#!/usr/bin/env python3
"""The program as a file: hardened as Debian's packages are, without a way to the network and without a shell."""
import os
import pathlib
import re
import shutil
import subprocess
import tempfile

from harness import PROGRAM, Copy, check, finish, run, skip


def readelf(flag, path=PROGRAM):
    return subprocess.run(["readelf", "-W", flag, path], capture_output=True, text=True, check=True,
                          env={**os.environ, "LC_ALL": "C"}).stdout


# What `hardening-check` of Debian's devscripts looks at.
head, dynamic, segments = readelf("-h"), readelf("-d"), readelf("-l")
check(re.search(r"Type:\s+DYN", head) and "PIE" in dynamic, "not a position-independent executable")
check("GNU_RELRO" in segments, "no read-only relocations")
check(re.search(r"BIND_NOW|FLAGS_1.*NOW", dynamic), "symbols are bound lazily")
stack = re.search(r"GNU_STACK.*", segments)
check(stack and "RWE" not in stack[0] and "RW" in stack[0], f"the stack can be executed: {stack and stack[0]}")
check(not re.search(r"LOAD.*\bRWE\b", segments), "a segment can be written and executed")
check(not re.search(r"\((RPATH|RUNPATH)\)", dynamic), "libraries are looked for in folders of the build")

undefined = {m[1] for m in re.finditer(r" UND (\w+)", readelf("--dyn-syms"))}
check("write" in undefined and "openat" in undefined | {"open", "open64"} or "open" in undefined, "no symbols were read: the test shows nothing")
check("__stack_chk_fail" in undefined, "no guard on the stack")
sanitized = any(name.startswith(("__asan", "__ubsan", "__gcov", "llvm_gcov")) for name in undefined)
cache = pathlib.Path(PROGRAM).parent / "CMakeCache.txt"
optimized = cache.exists() and re.search(r"CMAKE_CXX_FLAGS:.*-O[123]|CMAKE_BUILD_TYPE:.*Rel", cache.read_text())
if sanitized or not optimized:
    skip("checked calls of libc: this build is not optimized, or holds sanitizers")
else:
    check(any(name.endswith("_chk") and name != "__stack_chk_fail" for name in undefined), "no checked calls of libc")

# What is installed: small, and what a release leaves out stands beside it in the build.
build = pathlib.Path(PROGRAM).parent
if sanitized or not optimized:
    skip("the weight of the program: this build is not optimized, or holds sanitizers")
else:
    with tempfile.TemporaryDirectory(prefix="soundsill-test-") as prefix:
        subprocess.run(["cmake", "--install", build, "--prefix", prefix, "--strip"], check=True, capture_output=True)
        weight = (pathlib.Path(prefix) / "bin/soundsill").stat().st_size
        check(weight < 12_000_000, f"the installed program weighs {weight} bytes")
    if re.search(r"CMAKE_BUILD_TYPE:.*=Release", cache.read_text()):
        sections, symbols = readelf("-S"), readelf("-S", build / "soundsill.debug")
        check(".gnu_debuglink" in sections and ".debug_info" not in sections, "the release does not point to symbols beside it")
        check(".debug_info" in symbols and ".debug_line" in symbols, "the symbols beside the release are empty")
        built = [re.search(r"Build ID: (\w+)", readelf("-n", where)) for where in (PROGRAM, build / "soundsill.debug")]
        check(built[0] and built[1] and built[0][1] == built[1][1], "the symbols beside the release are of another build")

# No network, no shell: neither the calls nor a library that brings them.
NETWORK = {"socket", "socketpair", "connect", "bind", "listen", "accept", "accept4", "getaddrinfo", "gethostbyname",
           "getnameinfo", "send", "sendto", "sendmsg", "recv", "recvfrom", "recvmsg", "res_query"}
SHELL = {"system", "popen", "wordexp", "execl", "execlp", "execle", "execv", "execvp", "execve", "execvpe", "fork", "vfork"}
if sanitized:
    skip("symbols of network and shell: sanitizers bring their own")
else:
    check(not undefined & NETWORK, f"network: {undefined & NETWORK}")
    check(not undefined & SHELL, f"shell: {undefined & SHELL}")
needed = set(re.findall(r"\(NEEDED\).*\[(.*?)\]", dynamic))
linked = subprocess.run(["ldd", PROGRAM], capture_output=True, text=True).stdout
check("libhpdf" in linked, f"ldd told nothing: {linked}")
for library in ("curl", "ssl", "gnutls", "nghttp", "ssh", "krb5", "resolv", "soup", "QtNetwork"):
    check(f"lib{library}" not in linked, f"lib{library} comes with the program")
    check(not any(library in name for name in needed), f"lib{library} is needed")

# And while it works: no call of the kernel that opens a way out; the one other program is pdftoppm, without a shell.
with Copy() as copy:
    jobs = [["report", copy.folder, "-o", copy.root / "p.pdf"], ["review", copy.root], ["check", copy.folder]]
    if not shutil.which("strace") or subprocess.run(["strace", "-qq", "-e", "trace=none", "true"], capture_output=True).returncode:
        skip("no strace, or it may not trace: calls of the kernel")
    else:
        for words in [*jobs, ["report", copy.folder, "--png", copy.root / "pages"]]:
            log = copy.root / "calls"
            subprocess.run(["strace", "-f", "-qq", "-e", "trace=%network,execve", "-o", str(log), PROGRAM, *map(str, words)],
                           capture_output=True)
            calls = log.read_text()
            programs = [pathlib.Path(name).name for name, status in re.findall(r'execve\("(.*?)".*= (-?\d+)', calls) if status == "0"]
            others = ["pdftoppm"] if "--png" in words and shutil.which("pdftoppm") else []
            check(programs == [pathlib.Path(PROGRAM).name, *others], f"{words[0]}: runs {programs}")
            # A name service cache may be asked for by libc on behalf of a library, never by us: nothing at all is expected.
            check(not re.search(r"\b(socket|connect|sendto)\(", calls), f"{words[0]}: {calls[:300]}")
    alone = ["unshare", "--net", "--map-root-user"]
    if subprocess.run([*alone, "true"], capture_output=True).returncode:
        skip("no network namespace may be made: a run without any network")
    else:
        for words in jobs:
            result = run(*words, before=alone)
            check(result.returncode == 0, f"{words[0]} without a network: {result.stderr}")

# What a case names stays below the folder of the case: a photo, a logo, by `..`, by name from the root, by links.
with Copy() as copy:
    secret = copy.root / "secret.jpg"
    shutil.copy(copy.folder / "photos/1-close.jpg", secret)
    (copy.folder / "photos/link.jpg").symlink_to(secret)
    (copy.folder / "away").symlink_to(copy.root)
    (copy.folder / "photos/inside.jpg").symlink_to("1-close.jpg")
    text = copy.case.read_text()
    for name, taken in (("../secret.jpg", False), (str(secret), False), ("photos/link.jpg", False), ("away/secret.jpg", False),
                        ("photos/../../secret.jpg", False), ("/dev/zero", False), ("photos/inside.jpg", True),
                        ("photos/../photos/1-close.jpg", True)):
        copy.case.write_text(text.replace("photos/1-close.jpg", name))
        result = run("check", copy.folder)
        told = "it lies outside the folder of the file that names it" in result.stdout
        check(told != taken and (result.returncode == 0) == taken, f"{name}: {result.returncode} {result.stdout}")
finish()
