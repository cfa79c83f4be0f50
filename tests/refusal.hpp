#pragma once

#include "inkturn/base/error.hpp"

#include <string>

namespace inkturn::test {

/// Why the work is refused; empty where it is not.
template <typename Work>
std::string refusal_of(const Work& work) {
    try {
        work();
        return "";
    } catch (const Error& error) {
        return error.what();
    }
}

} // namespace inkturn::test
