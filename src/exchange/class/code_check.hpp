#pragma once

#include "exchange/class/class_file.hpp"
#include "inkturn/store/store.hpp"

#include <optional>
#include <string>

namespace inkturn {

/// Compares the codes of a file with those on file and with each other, and doubts what may be meant
/// otherwise. Where it is said that codes which are alike are the same, the file's become those on file.
/// Returns how many of its candidates are new.
std::size_t check_codes(const Store& store, const std::optional<std::string>& of_class, ClassFile& file);

} // namespace inkturn
