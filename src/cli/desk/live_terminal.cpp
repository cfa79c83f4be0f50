#include "cli/desk/live_terminal.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/utf8.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <poll.h>
#include <sstream>
#include <string_view>
#include <sys/ioctl.h>
#include <unistd.h>

namespace inkturn {
namespace {

constexpr std::array<int, 4> ending_signals{SIGINT, SIGTERM, SIGHUP, SIGQUIT};
constexpr std::size_t default_columns = 80;
constexpr std::size_t default_rows = 24;
constexpr char escape = '\x1b';

volatile std::sig_atomic_t end_signal = 0;
volatile std::sig_atomic_t stop_asked = 0;
volatile std::sig_atomic_t size_changed = 0;

// As they were before.
std::array<struct sigaction, ending_signals.size()> actions_found;
struct sigaction stop_action_found;
struct sigaction size_action_found;
sigset_t mask_found;

extern "C" void note_end(int signal) {
    end_signal = signal;
}
extern "C" void note_stop(int /*signal*/) {
    stop_asked = 1;
}
extern "C" void note_size(int /*signal*/) {
    size_changed = 1;
}

sigset_t watched() {
    sigset_t set;
    sigemptyset(&set);
    for (const int signal : ending_signals)
        sigaddset(&set, signal);
    sigaddset(&set, SIGTSTP);
    sigaddset(&set, SIGWINCH);
    return set;
}

void set_action(int signal, void (*handler)(int), struct sigaction& found) {
    struct sigaction action {};
    action.sa_handler = handler;
    sigaction(signal, &action, &found);
}

/// Signals arrive only while we wait.
void take_signals() {
    for (std::size_t i = 0; i < ending_signals.size(); ++i)
        set_action(ending_signals[i], note_end, actions_found[i]);
    set_action(SIGTSTP, note_stop, stop_action_found);
    set_action(SIGWINCH, note_size, size_action_found);
    const sigset_t set = watched();
    sigprocmask(SIG_BLOCK, &set, &mask_found);
}

void give_signals_back() {
    for (std::size_t i = 0; i < ending_signals.size(); ++i)
        sigaction(ending_signals[i], &actions_found[i], nullptr);
    sigaction(SIGTSTP, &stop_action_found, nullptr);
    sigaction(SIGWINCH, &size_action_found, nullptr);
    sigprocmask(SIG_SETMASK, &mask_found, nullptr);
}

/// If the terminal takes no text it has gone, and there is nothing to do.
void write_all(std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = ::write(STDOUT_FILENO, text.data(), text.size());
        if (written < 0 && errno != EINTR)
            return;
        text.remove_prefix(static_cast<std::size_t>(std::max<ssize_t>(0, written)));
    }
}

struct Size {
    std::size_t columns;
    std::size_t rows;
};

Size size_of_terminal() {
    winsize size{};
    if (::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0 || size.ws_row == 0)
        return {default_columns, default_rows};
    return {size.ws_col, size.ws_row};
}

bool goes_up() {
    const char* terminal = std::getenv("TERM");
    return terminal && *terminal && std::strcmp(terminal, "dumb") != 0;
}

/// How many bytes the first key sent.
std::size_t length_of_key(std::string_view keys) {
    if (keys.front() == escape && keys.size() > 2 && (keys[1] == '[' || keys[1] == 'O'))
        return std::min(keys.find_first_of("ABCDEFGHPQRSZ~", 2), keys.size() - 1) + 1;
    std::size_t length = 1;
    while (!is_ascii(keys.front()) && length < keys.size() && continues_character(keys[length]))
        ++length;
    return length;
}

} // namespace

LiveTerminal::LiveTerminal() : can_go_up_(goes_up()) {
    if (::tcgetattr(STDIN_FILENO, &found_) != 0)
        throw Error(std::string("the terminal can't be read: ") + std::strerror(errno));
    end_signal = stop_asked = size_changed = 0;
    take_signals();
    take();
}

LiveTerminal::~LiveTerminal() {
    give_back();
    give_signals_back();
}

void LiveTerminal::take() {
    termios keys = found_;
    keys.c_lflag &= static_cast<tcflag_t>(~(ICANON | ECHO));
    keys.c_cc[VMIN] = 1;
    keys.c_cc[VTIME] = 0;
    ::tcsetattr(STDIN_FILENO, TCSADRAIN, &keys);
}

/// The cursor is on the first line drawn; everything below is ours.
void LiveTerminal::give_back() {
    write_all(can_go_up_ ? "\r\x1b[J" : "\n");
    ::tcsetattr(STDIN_FILENO, TCSADRAIN, &found_);
}

void LiveTerminal::stop() {
    give_back();
    give_signals_back();
    ::raise(SIGTSTP);
    take_signals();
    take();
}

void LiveTerminal::draw(std::vector<std::string> lines, const std::string& message, bool bold) const {
    const Size size = size_of_terminal();
    const std::size_t width = std::max<std::size_t>(size.columns, 2) - 1;
    if (!can_go_up_) {
        write_all("\r" + fitted(message.empty() ? lines.front() : message, width));
        return;
    }
    std::istringstream broken(wrapped(message, width));
    for (std::string line; std::getline(broken, line);)
        lines.push_back(line);
    const std::size_t count = std::min(lines.size(), std::max<std::size_t>(size.rows, 2) - 1);
    std::string text = "\r";
    for (std::size_t i = 0; i < count; ++i) {
        std::string line = columns(lines[i]) > width ? fitted(lines[i], width) : lines[i];
        if (bold && i == 0)
            line.insert(0, "\x1b[1m").append("\x1b[0m");
        if (i > 0)
            text += '\n';
        text += line;
        text += "\x1b[K";
    }
    text += "\x1b[J\r";
    if (count > 1)
        text += "\x1b[" + std::to_string(count - 1) + "A";
    write_all(text);
}

void LiveTerminal::ring() {
    write_all("\a");
}

Wake LiveTerminal::wait(std::chrono::milliseconds max) {
    if (keys_.empty()) {
        pollfd input{STDIN_FILENO, POLLIN, 0};
        const timespec time{static_cast<std::time_t>(max.count() / 1000),
                            static_cast<long>(max.count() % 1000) * 1'000'000};
        const int ready = ::ppoll(&input, 1, &time, &mask_found);
        if (end_signal != 0)
            return {Wake::Why::end, {}, static_cast<int>(end_signal)};
        if (stop_asked != 0) {
            stop_asked = 0;
            stop();
            return {Wake::Why::redraw};
        }
        if (size_changed != 0) {
            size_changed = 0;
            if (can_go_up_)
                write_all("\r\x1b[J");
            return {Wake::Why::redraw};
        }
        if (ready <= 0)
            return {Wake::Why::time};
        std::array<char, 64> bytes{};
        const ssize_t count = ::read(STDIN_FILENO, bytes.data(), bytes.size());
        if (count <= 0)
            return {Wake::Why::end};
        keys_.assign(bytes.data(), static_cast<std::size_t>(count));
    }
    const std::size_t length = length_of_key(keys_);
    Wake wake{Wake::Why::key, keys_.substr(0, length)};
    keys_.erase(0, length);
    return wake;
}

} // namespace inkturn
