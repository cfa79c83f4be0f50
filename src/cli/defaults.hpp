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

/// What is wrong with a line of the file, or with the file as a whole: line 0.
struct DefaultMistake {
    std::size_t line;
    std::string what;
};

/// `line 3: ...`.
std::string to_text(const DefaultMistake& mistake);

/// What a file of defaults holds.
struct DefaultsFile {
    std::string name{}; ///< its path; empty if neither XDG_CONFIG_HOME nor HOME is set
    bool is_there = false;
    std::string unreadable{};             ///< why; empty if it is not
    std::vector<StatedDefault> stated{};  ///< in the order of the lines
    std::vector<DefaultMistake> strays{}; ///< of lines that are about no setting, and of the file as a whole
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

    /// Whether what the file states for its candidate may count for this one: false where it names another,
    /// or nobody and this is not me.
    bool may_be_for(const std::string& code) const;

    const DefaultsFile& file() const;
    std::string shown_name() const;               ///< of the file, with `~` for the home folder
    std::vector<DefaultMistake> mistakes() const; ///< all of them, by line

  private:
    mutable std::optional<DefaultsFile> file_{}; ///< nothing: not read yet
};

/// As it is written in the file: `extra-time`.
const char* name(Default setting) noexcept;

} // namespace inkturn
