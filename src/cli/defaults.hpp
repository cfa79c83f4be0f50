#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace inkturn {

/// A setting that the file of defaults may state.
enum class Default : std::uint8_t {
    candidate,
    extra_time,
    of_class,
    week_starts,
    availability,
    colours,
    paper_size
};

/// What the file says of a setting.
struct StatedDefault {
    Default setting;
    std::string value;
    std::size_t line;    ///< from 1
    std::string wrong{}; ///< what is wrong with it; empty if nothing is
};

/// The person's own file of defaults, `$XDG_CONFIG_HOME/inkturn/config`: a line a setting, `candidate = K07`;
/// what follows a `#` at a line's start is a remark. A file that isn't there says nothing. It is read when
/// the first setting is asked for, and a mistake in it stops only those who ask for what it is about.
class Defaults {
  public:
    /// The value, checked; nothing if it isn't stated. Throws Error with the file and the line if it is
    /// stated wrongly, or if the file can't be read.
    std::optional<std::string> find(Default setting) const;

    /// Where it is stated: `~/.config/inkturn/config, line 2`.
    std::string place_of(Default setting) const;

    const std::string& file() const; ///< its path; empty if neither XDG_CONFIG_HOME nor HOME is set
    bool is_there() const;
    const std::vector<StatedDefault>& stated() const; ///< in the order of the lines
    /// What is wrong with lines that are about no setting, and with the file as a whole: `line 3: ...`.
    const std::vector<std::string>& strays() const;

  private:
    void read() const;
    void read_line(const std::string& text, std::size_t line) const;
    void add(StatedDefault stated) const;
    std::string path_text() const;

    struct Content {
        std::string file{};
        bool is_there = false;
        std::string unreadable{}; ///< why; empty if it is not
        std::vector<StatedDefault> stated{};
        std::vector<std::string> strays{};
    };
    mutable std::optional<Content> content_{};
};

/// As it is written in the file: `extra-time`.
const char* name(Default setting) noexcept;

/// All of them, in the order in which they are shown.
const std::vector<Default>& all_defaults();

} // namespace inkturn
