#pragma once

#include <cstddef>
#include <string>

namespace inkturn {

/// The end of a help page in lines of at most `width` columns where it can be: a sentence that is too long
/// runs on to the end of its paragraph; an indented command is broken before an option or a value, as a shell
/// takes it.
std::string laid_out(const std::string& closing, std::size_t width);

} // namespace inkturn
