#include "cli/files_read.hpp"

#include <algorithm>
#include <array>
#include <filesystem>
#include <optional>
#include <sys/stat.h>

namespace inkturn {
namespace {

using FileNumber = std::pair<unsigned long, unsigned long>;

std::optional<FileNumber> number_of(const std::string& file) {
    struct stat status {};
    if (::stat(file.c_str(), &status) != 0)
        return std::nullopt;
    return FileNumber{status.st_dev, status.st_ino};
}

/// Where a file of this name is, or would be.
std::optional<std::pair<FileNumber, std::string>> place_of(const std::string& file) {
    const std::filesystem::path path(file);
    const std::string folder = path.parent_path().empty() ? "." : path.parent_path().string();
    const auto number = number_of(folder);
    if (!number)
        return std::nullopt;
    return std::pair{*number, path.filename().string()};
}

} // namespace

void FilesRead::add(const std::string& file) {
    if (const auto number = number_of(file))
        files_.push_back(*number);
}

bool FilesRead::holds(const std::string& file) const {
    const auto number = number_of(file);
    return number && std::find(files_.begin(), files_.end(), *number) != files_.end();
}

bool belongs_to_store(const std::string& file, const std::string& store) {
    const auto number = number_of(file);
    const auto place = place_of(file);
    constexpr std::array<const char*, 4> endings{"", "-journal", "-wal", "-shm"};
    return std::any_of(endings.begin(), endings.end(), [&](const char* ending) {
        const std::string one = store + ending;
        return (number && number == number_of(one)) || (place && place == place_of(one));
    });
}

} // namespace inkturn
