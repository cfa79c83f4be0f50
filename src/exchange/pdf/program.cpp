#include "exchange/pdf/program.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <optional>
#include <string_view>
#include <thread>

#include <fcntl.h>
#include <poll.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

extern char** environ; // NOLINT(readability-redundant-declaration)

namespace inkturn {
namespace {

using Clock = std::chrono::steady_clock;

constexpr int above_standard_streams = 10;
constexpr long max_descriptors = 4096;
constexpr int never_started = 127;

[[noreturn]] void refuse_start(const std::string& program, int reason) {
    throw Error(program + " could not be started: " + std::strerror(reason));
}

std::string length(std::chrono::milliseconds time) {
    const auto count = time.count();
    return count % 1000 == 0 ? std::to_string(count / 1000) + " s" : std::to_string(count) + " ms";
}

class Descriptor {
  public:
    Descriptor() = default;
    explicit Descriptor(int number) : number_(number) {}
    ~Descriptor() { close(); }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;

    int number() const { return number_; }
    bool is_open() const { return number_ >= 0; }
    void open(int number) {
        close();
        number_ = number;
    }
    void close() {
        if (is_open())
            ::close(number_);
        number_ = -1;
    }

  private:
    int number_ = -1;
};

/// Both ends have numbers above the standard streams', so that moving them there loses none, and are closed
/// in a program that is started.
struct Pipe {
    Descriptor from;
    Descriptor to;

    explicit Pipe(const std::string& program) {
        std::array<int, 2> ends{};
        if (::pipe(ends.data()) != 0)
            refuse_start(program, errno);
        const Descriptor low_from(ends[0]);
        const Descriptor low_to(ends[1]);
        from.open(::fcntl(low_from.number(), F_DUPFD_CLOEXEC, above_standard_streams));
        to.open(::fcntl(low_to.number(), F_DUPFD_CLOEXEC, above_standard_streams));
#ifdef F_SETPIPE_SZ
        constexpr int room = 1 << 20;
        ::fcntl(to.number(), F_SETPIPE_SZ, room); // so that a program can go on while we work
#endif
        if (!from.is_open() || !to.is_open())
            refuse_start(program, errno);
    }
};

/// A nameless file that holds the bytes, open to read from its start; -1 if there can be none.
int file_with(std::string_view bytes) {
    std::FILE* const file = std::tmpfile();
    if (!file)
        return -1;
    const bool is_whole =
        std::fwrite(bytes.data(), 1, bytes.size(), file) == bytes.size() && std::fflush(file) == 0;
    const int kept = is_whole ? ::fcntl(::fileno(file), F_DUPFD_CLOEXEC, above_standard_streams) : -1;
    std::fclose(file); // NOLINT(cert-err33-c): it was only read from since
    if (kept >= 0)
        ::lseek(kept, 0, SEEK_SET);
    return kept;
}

bool is_program(const std::string& path) {
    struct stat status {};
    return ::stat(path.c_str(), &status) == 0 && S_ISREG(status.st_mode) && ::access(path.c_str(), X_OK) == 0;
}

/// Skips folders of PATH that are not absolute, so that nothing in the current folder is run.
std::optional<std::string> path_of(const std::string& program) {
    const char* path = std::getenv("PATH");
    std::string_view folders = path ? path : "/usr/bin:/bin";
    while (!folders.empty()) {
        const std::size_t end = std::min(folders.find(':'), folders.size());
        const std::string found = std::string(folders.substr(0, end)) + "/" + program;
        if (found.front() == '/' && end > 0 && is_program(found))
            return found;
        folders.remove_prefix(std::min(end + 1, folders.size()));
    }
    return std::nullopt;
}

/// What the child needs, made beforehand: nothing may allocate memory between fork and exec.
struct Start {
    const char* path;
    char* const* words;
    int input;    ///< to read from
    int output;   ///< to write to
    int messages; ///< likewise
    int failure;  ///< for the reason if it doesn't start
    int descriptors;
    rlim_t seconds;
    rlim_t memory;
};

bool limit(decltype(RLIMIT_AS) what, rlim_t most) {
    const rlimit both{most, most};
    return ::setrlimit(what, &both) == 0;
}

[[noreturn]] void become(const Start& start) {
    const bool ready = ::dup2(start.input, STDIN_FILENO) >= 0 && ::dup2(start.output, STDOUT_FILENO) >= 0 &&
                       ::dup2(start.messages, STDERR_FILENO) >= 0 && limit(RLIMIT_CPU, start.seconds) &&
                       limit(RLIMIT_AS, start.memory) && limit(RLIMIT_FSIZE, 0) && limit(RLIMIT_CORE, 0);
    if (ready) {
        for (int other = STDERR_FILENO + 1; other < start.descriptors; ++other)
            if (other != start.failure)
                ::close(other);
        ::signal(SIGPIPE, SIG_DFL);
        ::signal(SIGXFSZ, SIG_IGN); // writing a file is an error
        ::execve(start.path, start.words, environ);
    }
    const int reason = errno;
    [[maybe_unused]] const ssize_t told = ::write(start.failure, &reason, sizeof reason);
    ::_exit(never_started);
}

/// A program that was started; it is killed at the end of its scope if it is still running.
class Running {
  public:
    Running(const std::string& name, const ProgramLimits& limits, const ProgramStreams& streams)
        : name_(name),
          deadline_(Clock::now() + limits.time),
          limits_(limits),
          streams_(streams),
          output_(name),
          messages_(name) {}

    ~Running() {
        if (process_ > 0) {
            ::kill(process_, SIGKILL);
            while (::waitpid(process_, nullptr, 0) < 0 && errno == EINTR) {
            }
        }
    }
    Running(const Running&) = delete;
    Running& operator=(const Running&) = delete;

    void start(const std::vector<std::string>& words, const std::string& path) {
        Pipe failure(name_);
        const Descriptor low_input(streams_.input.empty() ? ::open("/dev/null", O_RDONLY | O_CLOEXEC)
                                                          : file_with(streams_.input));
        const Descriptor input(::fcntl(low_input.number(), F_DUPFD_CLOEXEC, above_standard_streams));
        if (!input.is_open())
            refuse_start(name_, errno);
        std::vector<char*> pointers;
        for (const std::string& word : words)
            pointers.push_back(const_cast<char*>(word.c_str()));
        pointers.push_back(nullptr);
        const auto seconds = std::chrono::ceil<std::chrono::seconds>(limits_.time).count();
        const Start start{path.c_str(),
                          pointers.data(),
                          input.number(),
                          output_.to.number(),
                          messages_.to.number(),
                          failure.to.number(),
                          static_cast<int>(std::min(::sysconf(_SC_OPEN_MAX), max_descriptors)),
                          static_cast<rlim_t>(std::max<std::chrono::seconds::rep>(seconds, 1)),
                          static_cast<rlim_t>(limits_.memory)};
        process_ = ::fork();
        if (process_ == 0)
            become(start);
        if (process_ < 0)
            refuse_start(name_, errno);
        for (Descriptor* end : {&failure.to, &output_.to, &messages_.to})
            end->close();
        int reason = 0;
        ssize_t told = 0;
        do
            told = ::read(failure.from.number(), &reason, sizeof reason);
        while (told < 0 && errno == EINTR);
        if (told == sizeof reason)
            refuse_start(name_, reason);
    }

    ProgramResult result() {
        ProgramResult result{0, {}, {}};
        if (!streams_.take)
            result.output.reserve(limits_.output + buffer_.size()); // takes no memory until it is filled
        while (output_.from.is_open() || messages_.from.is_open())
            read_some(result);
        result.code = code_at_end();
        return result;
    }

  private:
    std::chrono::milliseconds time_left() const {
        const auto left = std::chrono::ceil<std::chrono::milliseconds>(deadline_ - Clock::now());
        if (left.count() <= 0)
            throw Error(name_ + " was still running after " + length(limits_.time) +
                        " and was stopped: the file is damaged or far too large");
        return left;
    }

    void read_some(ProgramResult& result) {
        std::array<pollfd, 2> ends{
            {{output_.from.number(), POLLIN, 0}, {messages_.from.number(), POLLIN, 0}}};
        const auto wait = std::min(time_left(), std::chrono::milliseconds(std::chrono::minutes(1)));
        if (::poll(ends.data(), ends.size(), static_cast<int>(wait.count())) < 0 && errno != EINTR)
            throw Error("waiting for " + name_ + " failed: " + std::strerror(errno));
        if (ends[0].revents != 0) {
            const std::size_t more_bytes = read_from(output_.from, [&](std::string_view more) {
                if (streams_.take)
                    streams_.take(more);
                else
                    result.output += more;
            });
            written_ += more_bytes;
            if (streams_.take && output_.from.is_open())
                wait_for_more(more_bytes);
            if (written_ > limits_.output)
                throw Error(name_ + " wrote more than " + std::to_string(limits_.output) +
                            " bytes and was stopped: the file holds too much");
        }
        if (ends[1].revents != 0) {
            read_from(messages_.from, [&](std::string_view more) { result.messages += more; });
            result.messages.resize(std::min(result.messages.size(), limits_.messages));
        }
    }

    /// Lets what comes in small pieces gather in the pipe, rather than wake up for each.
    static void wait_for_more(std::size_t had) {
        constexpr std::size_t little = std::size_t{1} << 15; // bytes
        if (had < little)
            std::this_thread::sleep_for(std::chrono::microseconds(500));
    }

    /// Gives what there is, and closes the end if there is no more. Returns how many bytes there were.
    template <typename Take>
    std::size_t read_from(Descriptor& from, const Take& take) {
        Room room{buffer_.data(), buffer_.size()};
        if (streams_.room && &from == &output_.from)
            if (const Room own = streams_.room(); own.size > 0)
                room = own;
        const ssize_t count = ::read(from.number(), room.at, room.size);
        if (count <= 0) {
            if (count == 0 || errno != EINTR)
                from.close();
            return 0;
        }
        take({room.at, static_cast<std::size_t>(count)});
        return static_cast<std::size_t>(count);
    }

    /// A program may close its streams and carry on.
    int code_at_end() {
        int status = 0;
        pid_t ended = 0;
        auto pause = std::chrono::microseconds(100);
        while ((ended = ::waitpid(process_, &status, WNOHANG)) == 0 || (ended < 0 && errno == EINTR)) {
            std::this_thread::sleep_for(std::min<std::chrono::microseconds>(pause, time_left()));
            pause = std::min(2 * pause, std::chrono::microseconds(20'000));
        }
        process_ = -1;
        if (ended < 0)
            throw Error("waiting for " + name_ + " failed: " + std::strerror(errno));
        if (WIFSIGNALED(status))
            throw Error(name_ + " was stopped by signal " + std::to_string(WTERMSIG(status)) +
                        ": the file is damaged or far too large");
        return WEXITSTATUS(status);
    }

    std::string name_;
    Clock::time_point deadline_;
    ProgramLimits limits_;
    const ProgramStreams& streams_;
    std::size_t written_ = 0; ///< bytes
    pid_t process_ = -1;
    Pipe output_;
    Pipe messages_;
    std::array<char, 1 << 16> buffer_{};
};

} // namespace

ProgramResult run_program(const std::vector<std::string>& words, const std::string& package,
                          const ProgramLimits& limits, const ProgramStreams& streams) {
    const auto path = path_of(words.front());
    if (!path)
        throw MissingProgram(words.front() + " was not found: install " + package);
    Running running(words.front(), limits, streams);
    running.start(words, *path);
    return running.result();
}

std::string file_argument(const std::string& file) {
    return !file.empty() && file.front() == '/' ? file : "./" + file;
}

} // namespace inkturn
