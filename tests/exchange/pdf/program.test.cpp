#include "exchange/pdf/program.hpp"

#include "catch.hpp"
#include "refusal.hpp"

#include <cstdlib>
#include <fcntl.h>
#include <future>
#include <sys/wait.h>
#include <unistd.h>

namespace {

using namespace inkturn;
using Catch::Matchers::Contains;

ProgramResult shell(const std::string& line, const ProgramLimits& limits = {}) {
    return run_program({"sh", "-c", line}, "dash", limits);
}

std::string refusal(const std::string& line, const ProgramLimits& limits = {}) {
    return test::refusal_of([&] { shell(line, limits); });
}

ProgramLimits within(std::chrono::milliseconds time) {
    ProgramLimits limits;
    limits.time = time;
    return limits;
}

bool has_children() {
    return ::waitpid(-1, nullptr, WNOHANG) == 0 || errno != ECHILD;
}

} // namespace

TEST_CASE("what a program writes comes back, with its exit code") {
    const ProgramResult result = shell("printf out; printf err >&2; exit 7");
    CHECK(result.code == 7);
    CHECK(result.output == "out");
    CHECK(result.messages == "err");
}

TEST_CASE("no shell reads the arguments") {
    const std::string words = "$HOME; `id` \"'* \n -n";
    CHECK(run_program({"printf", "%s|%s", words, ""}, "coreutils").output == words + "|");
}

TEST_CASE("much on both streams comes to its end") {
    const ProgramResult result = shell("head -c 3000000 /dev/zero; head -c 3000000 /dev/zero >&2; echo end");
    CHECK(result.output.size() == 3'000'004);
    CHECK(result.messages.size() == ProgramLimits().messages);
}

TEST_CASE("a missing program is named with its package") {
    CHECK_THROWS_AS(run_program({"inkturn-no-such", "x"}, "no-package"), MissingProgram);
    CHECK_THROWS_WITH(run_program({"inkturn-no-such", "x"}, "no-package"),
                      "inkturn-no-such was not found: install no-package");
}

TEST_CASE("a file that can't be run says why") {
    char folder[] = "/tmp/inkturn-program-XXXXXX";
    REQUIRE(::mkdtemp(folder) != nullptr);
    const std::string program = std::string(folder) + "/broken";
    const int file = ::open(program.c_str(), O_WRONLY | O_CREAT, 0700);
    REQUIRE(::write(file,
                    "\x7f"
                    "ELF",
                    4) == 4);
    ::close(file);
    const std::string path = std::getenv("PATH");
    ::setenv("PATH", folder, 1);
    const std::string message = test::refusal_of([] { run_program({"broken"}, "none"); });
    ::setenv("PATH", path.c_str(), 1);
    ::unlink(program.c_str());
    ::rmdir(folder);
    CHECK_THAT(message, Contains("broken could not be started: "));
    CHECK(!has_children());
}

TEST_CASE("a folder of PATH that is not absolute is passed over") {
    const std::string path = std::getenv("PATH");
    for (const char* relative : {"", ":", ".", "bin:.", "::./"}) {
        ::setenv("PATH", relative, 1);
        CHECK_THROWS_AS(run_program({"true"}, "coreutils"), MissingProgram);
    }
    ::setenv("PATH", path.c_str(), 1);
    CHECK(run_program({"true"}, "coreutils").code == 0);
}

TEST_CASE("a program that runs too long is stopped") {
    CHECK_THAT(refusal("sleep 60", within(std::chrono::milliseconds(100))),
               Contains("still running after 100 ms"));
    CHECK_THAT(refusal("exec >&- 2>&-; sleep 60", within(std::chrono::milliseconds(100))),
               Contains("still running after"));
    CHECK(!has_children());
}

TEST_CASE("a program that writes without end is stopped") {
    ProgramLimits limits;
    limits.output = 1'000'000;
    CHECK_THAT(refusal("exec cat /dev/zero", limits), Contains("more than 1000000 bytes"));
    CHECK(!has_children());
    CHECK(shell("head -c 1000000 /dev/zero", limits).output.size() == 1'000'000);
}

TEST_CASE("a program that asks for too much memory fails") {
    ProgramLimits limits;
    limits.memory = std::size_t{64} << 20;
    CHECK(shell("dd if=/dev/zero of=/dev/null bs=200M count=1", limits).code != 0);
    CHECK(shell("dd if=/dev/zero of=/dev/null bs=200M count=1").code == 0);
}

TEST_CASE("a program that is killed is an error") {
    CHECK_THAT(refusal("kill -9 $$"), Contains("stopped by signal 9"));
}

TEST_CASE("a program has nothing to read, and writes no file") {
    CHECK(shell("cat").output.empty());
    char name[] = "/tmp/inkturn-program-XXXXXX";
    ::close(::mkstemp(name));
    CHECK(shell("echo x >" + std::string(name)).code != 0);
    ::unlink(name);
}

TEST_CASE("files that are open stay with us") {
    const int open_file = ::open("/dev/null", O_RDONLY); // handed on, were it not closed
    REQUIRE(open_file > 2);
    CHECK(shell("ls /proc/self/fd | sort -n | tail -n +4 | wc -l").output == "1\n"); // the folder itself
    ::close(open_file);
}

TEST_CASE("programs run side by side") {
    std::vector<std::future<ProgramResult>> running;
    for (int i = 0; i < 8; ++i)
        running.push_back(std::async(std::launch::async, [i] { return shell("echo " + std::to_string(i)); }));
    for (int i = 0; i < 8; ++i)
        CHECK(running[static_cast<std::size_t>(i)].get().output == std::to_string(i) + "\n");
}

TEST_CASE("a file's name is never taken for an option") {
    CHECK(file_argument("-layout") == "./-layout");
    CHECK(file_argument("-") == "./-");
    CHECK(file_argument("fd://0") == "./fd://0");
    CHECK(file_argument("pure 1.pdf") == "./pure 1.pdf");
    CHECK(file_argument("/srv/pure.pdf") == "/srv/pure.pdf");
}
