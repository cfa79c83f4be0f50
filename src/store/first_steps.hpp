#pragma once

#include <array>

namespace inkturn {

/// The SQL of migrations 1 to 10; those after are in migrations.cpp.
extern const std::array<const char*, 10> first_steps;

} // namespace inkturn
