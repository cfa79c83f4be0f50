#pragma once

#include "exchange/document/strict_json.hpp"

namespace inkturn {

/// Of an export. Read first, so that another kind of file is named as such, and a newer export is not called
/// damaged: these throw Error.
int read_version(const JsonValue& root);

/// The names that version had for keys of today; null where it had none of its own.
const OlderKeys* older_keys(int version);

} // namespace inkturn
