#include "exchange/document/version.hpp"

#include "exchange/document/document.hpp"
#include "inkturn/base/error.hpp"

namespace inkturn {
namespace {

constexpr int max_version = 1000000; ///< a whole number, whatever inkturn writes it

} // namespace

int read_version(const JsonValue& root) {
    if (!root.has("format") || !root.has("version") || root.at("format").text() != export_format)
        throw Error("this is not an export of inkturn; 'inkturn export' writes one");
    const JsonValue value = root.at("version");
    const int version = value.whole_number(1, max_version);
    if (version > export_version)
        throw Error("the export has version " + std::to_string(version) +
                    ", written by a newer inkturn; this one reads versions 1 to " +
                    std::to_string(export_version) + ", so update it");
    return version;
}

const OlderKeys* older_keys(int version) { // version 1 differs in these names alone
    static const OlderKeys version_1{{"kept_days", "days"},
                                     {"missed_rows", "missed"},
                                     {"plan_wishes", "plan"},
                                     {"reattempts", "retries"},
                                     {"relearned_topics", "relearned"}};
    return version == 1 ? &version_1 : nullptr;
}

} // namespace inkturn
