#pragma once

#include "exchange/class/class_file.hpp"
#include "inkturn/base/likeness.hpp"
#include "inkturn/store/store.hpp"

#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// Compares the codes of a file with those on file and with each other, and doubts what may be meant
/// otherwise. Where it is said that codes which are alike are the same, the file's become those on file.
/// Returns how many of its candidates are new.
std::size_t check_codes(const Store& store, const std::optional<std::string>& of_class, ClassFile& file);

/// That two codes are alike, and in what they differ.
std::string alike_text(const std::string& code, const std::string& known);

/// A code that was typed and is not on file: doubted where one on file is alike, or is it but for a slip, and
/// that one where it is said that such are the same.
std::string settled_code(const std::string& code, const std::vector<std::string>& on_file,
                         FileDoubts& doubts);

/// Codes that were typed as new members of a class: doubted and settled as those of a file are. Throws Error
/// where what is settled contradicts itself.
std::vector<std::string> settled_members(const Store& store, const std::string& of_class,
                                         const std::vector<std::string>& codes, FileDoubts& doubts);

/// Doubts papers that the file would create where one on file, or before it in the file, has almost its id.
void doubt_new_papers(const Store& store, ClassFile& file);

/// Doubts a class that is to be made where one on file has almost its name.
void doubt_new_class(const Store& store, const std::string& name, FileDoubts& doubts);

/// Doubts a column that puts candidates into another class: one on file, or one named like this one.
void doubt_other_classes(const Store& store, const std::string& name, ClassFile& file);

} // namespace inkturn
