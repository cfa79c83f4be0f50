#pragma once

#include <CLI/CLI.hpp>

#include <memory>

namespace inkturn {

/// Help pages that fit 80 columns.
std::shared_ptr<CLI::FormatterBase> help_formatter();

} // namespace inkturn
