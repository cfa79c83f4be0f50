#include "cli/terminal.hpp"

#include "view/text/table.hpp"

#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <ostream>
#include <sys/ioctl.h>
#include <unistd.h>

namespace inkturn {
namespace {

constexpr std::size_t megabyte = 1'000'000;
constexpr std::size_t min_columns = 20;

} // namespace

bool stdin_is_terminal() {
    return ::isatty(STDIN_FILENO) == 1;
}
bool stdout_is_terminal() {
    return ::isatty(STDOUT_FILENO) == 1;
}
bool stderr_is_terminal() {
    return ::isatty(STDERR_FILENO) == 1;
}

bool stdout_takes_styles() {
    const char* no_colour = std::getenv("NO_COLOR");
    const char* terminal = std::getenv("TERM");
    return stdout_is_terminal() && !(no_colour && *no_colour) && terminal &&
           std::strcmp(terminal, "dumb") != 0;
}

std::size_t text_columns() {
    winsize size{};
    if (::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0)
        return Table::full_width;
    return std::clamp<std::size_t>(size.ws_col, min_columns, Table::full_width);
}

ProgressLine::ProgressLine(std::ostream& err, std::string what, std::size_t whole)
    : err_(err), what_(std::move(what)), whole_(whole) {}

void ProgressLine::show(std::size_t bytes) {
    if (!stderr_is_terminal() || bytes < shown_ + megabyte)
        return;
    shown_ = bytes;
    err_ << '\r' << what_ << ' ' << bytes / megabyte;
    if (whole_ > 0)
        err_ << " of " << whole_ / megabyte;
    err_ << " MB" << std::flush;
}

ProgressLine::~ProgressLine() {
    if (shown_ > 0)
        err_ << '\r' << std::string(what_.size() + 24, ' ') << '\r' << std::flush;
}

} // namespace inkturn
