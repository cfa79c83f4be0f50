#include "cli/named_input.hpp"

#include "inkturn/base/error.hpp"

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <istream>
#include <stdlib.h> // mkdtemp is POSIX's

namespace inkturn {

namespace fs = std::filesystem;

PassingCopy::PassingCopy(const std::string& what)
    : folder_((fs::temp_directory_path() / ("inkturn-" + what + "-XXXXXX")).string()) {
    if (!::mkdtemp(folder_.data()))
        throw Error("making a passing folder for the " + what + " failed: " + std::strerror(errno));
}

PassingCopy::~PassingCopy() {
    std::error_code failure; // what is left lies where the system clears up
    fs::remove_all(folder_, failure);
}

NamedInput::NamedInput(const std::string& name, const Context& context) : name_(name) {
    if (name != "-")
        return;
    copy_.emplace("input");
    std::ofstream copy(copy_->file(), std::ios::binary);
    if (context.in.peek() != std::istream::traits_type::eof())
        copy << context.in.rdbuf();
    copy.close();
    if (copy.fail())
        throw Error("standard input can't be kept in '" + copy_->file() + "': is the disk full?");
}

} // namespace inkturn
