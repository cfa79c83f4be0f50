#pragma once

#include <string>
#include <string_view>

namespace inkturn {

/// The share of a part's marks from which the part counts as got, in percent.
class GotAt {
  public:
    static constexpr int min_percent = 1;
    static constexpr int max_percent = 100;

    constexpr GotAt() = default; ///< all of its marks
    /// Throws Error outside min_percent to max_percent.
    explicit GotAt(int percent);
    constexpr int percent() const { return percent_; }

    friend constexpr bool operator==(GotAt a, GotAt b) { return a.percent_ == b.percent_; }
    friend constexpr bool operator!=(GotAt a, GotAt b) { return a.percent_ != b.percent_; }

  private:
    int percent_ = max_percent;
};

/// `80%`.
std::string to_text(GotAt got_at);

/// Reads `80%` or `80`. Throws Error.
GotAt parse_got_at(std::string_view text);

} // namespace inkturn
