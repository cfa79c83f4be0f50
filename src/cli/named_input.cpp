#include "cli/named_input.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <istream>
#include <stdlib.h> // mkdtemp is POSIX's
#include <unistd.h>

namespace inkturn {

namespace fs = std::filesystem;

namespace {

constexpr std::array<int, 4> ending_signals{SIGINT, SIGTERM, SIGHUP, SIGPIPE};

// What the handler removes: in place before a signal can come, and only read by it.
std::array<char, 512> copy_to_remove{};
std::array<char, 512> journal_to_remove{};
std::array<char, 512> folder_to_remove{};

void keep_name(std::array<char, 512>& into, const std::string& name) {
    if (name.size() < into.size())
        std::copy(name.c_str(), name.c_str() + name.size() + 1, into.begin());
}

/// Only calls that a handler may make (POSIX, signal concepts).
void remove_and_end(int signal) {
    ::unlink(copy_to_remove.data());
    ::unlink(journal_to_remove.data());
    ::rmdir(folder_to_remove.data());
    std::signal(signal, SIG_DFL);
    std::raise(signal);
}

void handle_signals(void (*handler)(int)) {
    for (const int signal : ending_signals)
        std::signal(signal, handler);
}

} // namespace

PassingCopy::PassingCopy(const std::string& what)
    : folder_((fs::temp_directory_path() / ("inkturn-" + what + "-XXXXXX")).string()) {
    if (!::mkdtemp(folder_.data()))
        throw Error("making a passing folder for the " + what + " failed: " + std::strerror(errno));
    keep_name(copy_to_remove, file());
    keep_name(journal_to_remove, file() + "-journal");
    keep_name(folder_to_remove, folder_);
    handle_signals(remove_and_end);
}

PassingCopy::~PassingCopy() {
    handle_signals(SIG_DFL);
    std::error_code failure; // what is left lies where the system clears up
    fs::remove_all(folder_, failure);
}

NamedInput::NamedInput(const std::string& name, const Context& context, std::uintmax_t max_bytes)
    : name_(name) {
    if (name != "-")
        return;
    copy_.emplace("input");
    std::ofstream copy(copy_->file(), std::ios::binary);
    std::array<char, 65536> block{};
    for (std::uintmax_t left = max_bytes + 1; left > 0 && copy && context.in;) {
        const std::uintmax_t wanted = std::min<std::uintmax_t>(left, block.size());
        context.in.read(block.data(), static_cast<std::streamsize>(wanted));
        copy.write(block.data(), context.in.gcount());
        left -= static_cast<std::uintmax_t>(context.in.gcount());
    }
    copy.close();
    if (copy.fail())
        throw Error("standard input can't be kept in '" + copy_->file() + "': is the disk full?");
}

} // namespace inkturn
