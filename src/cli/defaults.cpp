#include "cli/defaults.hpp"

#include "cli/default_candidate.hpp"
#include "cli/weekday_time.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"
#include "inkturn/clock/allowance.hpp"
#include "inkturn/retry/availability.hpp"
#include "inkturn/retry/candidate.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <iterator>
#include <sstream>
#include <sys/stat.h>

namespace inkturn {
namespace {

constexpr std::size_t max_file_size = 100'000; ///< bytes; nobody has so many settings

struct KnownDefault {
    const char* name;
    const char* form; ///< how a value is written
    void (*check)(const std::string& value);
};

void check_one_of(const std::string& value, const char* one, const char* other) {
    if (value != one && value != other)
        throw Error("'" + value + "': write " + one + " or " + other);
}

/// In the order of Default.
const std::vector<KnownDefault>& known() {
    static const std::vector<KnownDefault> all{
        {"candidate", "K07", [](const std::string& value) { check_candidate_code(value); }},
        {"extra-time", "25",
         [](const std::string& value) {
             parse_whole_number(value, 0, ExtraTime::max_percent, "extra-time");
         }},
        {"class", "tuesday", [](const std::string& value) { check_class_name(value); }},
        {"week-starts", "mon", [](const std::string& value) { parse_weekday(value); }},
        {"availability", "mon=45 sat=120",
         [](const std::string& value) { parse_week(split_at_blanks(value)); }},
        {"colours", "no", [](const std::string& value) { check_one_of(value, "yes", "no"); }},
        {"paper-size", "A4", [](const std::string& value) { check_one_of(value, "A4", "letter"); }},
    };
    return all;
}

std::string names_of_all() {
    std::string names;
    for (const KnownDefault& one : known())
        names += (names.empty() ? "" : ", ") + std::string(one.name);
    return names;
}

std::optional<Default> setting_named(const std::string& typed) {
    const auto found = std::find_if(known().begin(), known().end(),
                                    [&](const KnownDefault& one) { return typed == one.name; });
    if (found == known().end())
        return std::nullopt;
    return static_cast<Default>(found - known().begin());
}

/// The one that was probably meant.
std::optional<Default> setting_meant(const std::string& typed) {
    std::vector<std::string> names;
    for (const KnownDefault& one : known())
        names.emplace_back(one.name);
    const auto nearest = nearest_name(typed, names);
    return nearest ? setting_named(*nearest) : std::nullopt;
}

/// In $XDG_CONFIG_HOME if that is absolute, or else in ~/.config; empty if there is no home.
std::string config_file() {
    const char* xdg = std::getenv("XDG_CONFIG_HOME");
    if (xdg && *xdg == '/')
        return std::string(xdg) + "/inkturn/config";
    const char* home = std::getenv("HOME");
    return home && *home ? std::string(home) + "/.config/inkturn/config" : "";
}

std::string what_is_wrong(Default setting, const std::string& value) {
    const KnownDefault& one = known()[static_cast<std::size_t>(setting)];
    if (value.empty())
        return std::string("no value: write ") + one.name + " = " + one.form + ", or take the line out";
    try {
        check_printable(value, 1'000, "the value");
        one.check(value);
        return {};
    } catch (const Error& error) {
        return error.what();
    }
}

} // namespace

std::optional<std::string> Defaults::find(Default setting) const {
    for (const StatedDefault& one : stated())
        if (one.setting == setting && !one.wrong.empty())
            throw Error(path_text() + ", line " + std::to_string(one.line) + ": " + one.wrong);
    if (!content_->unreadable.empty())
        throw Error(path_text() + " can't be read: " + content_->unreadable);
    for (const StatedDefault& one : stated())
        if (one.setting == setting)
            return one.value;
    return std::nullopt;
}

std::string Defaults::place_of(Default setting) const {
    for (const StatedDefault& one : stated())
        if (one.setting == setting)
            return path_text() + ", line " + std::to_string(one.line);
    return path_text();
}

const std::string& Defaults::file() const {
    read();
    return content_->file;
}

bool Defaults::is_there() const {
    read();
    return content_->is_there;
}

const std::vector<StatedDefault>& Defaults::stated() const {
    read();
    return content_->stated;
}

const std::vector<std::string>& Defaults::strays() const {
    read();
    return content_->strays;
}

/// As the person writes it, with `~` for the home folder.
std::string Defaults::path_text() const {
    const char* home = std::getenv("HOME");
    const std::string folder = home ? std::string(home) + "/" : "";
    const std::string& file = content_->file;
    return folder.size() > 1 && file.rfind(folder, 0) == 0 ? "~/" + file.substr(folder.size()) : file;
}

void Defaults::read() const {
    if (content_)
        return;
    content_.emplace();
    content_->file = config_file();
    struct stat status {};
    if (content_->file.empty() || (::stat(content_->file.c_str(), &status) != 0 && errno == ENOENT))
        return;
    content_->is_there = true;
    std::ifstream in(content_->file, std::ios::binary);
    if (!S_ISREG(status.st_mode))
        content_->unreadable = "it is not a regular file";
    else if (!in)
        content_->unreadable = std::strerror(errno);
    else if (static_cast<std::size_t>(status.st_size) > max_file_size)
        content_->unreadable = "it is too long for a file of defaults";
    if (!content_->unreadable.empty()) {
        content_->strays.push_back("the file can't be read: " + content_->unreadable);
        return;
    }
    std::string text;
    for (std::size_t line = 1; std::getline(in, text); ++line)
        read_line(text, line);
}

void Defaults::read_line(const std::string& text, std::size_t line) const {
    constexpr std::string_view mark = "\xef\xbb\xbf"; // what some editors put before the first letter
    std::string_view rest = text;
    if (line == 1 && rest.substr(0, mark.size()) == mark)
        rest.remove_prefix(mark.size());
    if (!rest.empty() && rest.back() == '\r')
        rest.remove_suffix(1);
    rest = trimmed(rest);
    if (rest.empty() || rest.front() == '#')
        return;
    const std::size_t sign = rest.find('=');
    const std::string key = lower_case(trimmed(rest.substr(0, std::min(sign, rest.find_first_of(" \t=")))));
    const std::string value(sign == std::string_view::npos ? "" : trimmed(rest.substr(sign + 1)));
    const std::string whole_key =
        sign == std::string_view::npos ? key : std::string(trimmed(rest.substr(0, sign)));
    const auto setting = setting_named(whole_key);
    const auto meant = setting ? setting : setting_meant(key);
    if (!meant)
        content_->strays.push_back("line " + std::to_string(line) + ": '" + whole_key +
                                   "' is no setting: there are " + names_of_all());
    else if (sign == std::string_view::npos)
        add({*meant, "", line, std::string("write ") + name(*meant) + " = VALUE"});
    else if (!setting)
        add({*meant, value, line, "'" + whole_key + "' is no setting; did you mean " + name(*meant) + "?"});
    else
        add({*meant, value, line, what_is_wrong(*meant, value)});
}

void Defaults::add(StatedDefault stated) const {
    for (const StatedDefault& before : content_->stated)
        if (before.setting == stated.setting && stated.wrong.empty())
            stated.wrong = std::string(name(stated.setting)) + " is stated on line " +
                           std::to_string(before.line) + " already: take one of them out";
    content_->stated.push_back(std::move(stated));
}

bool may_be_for(const Defaults& defaults, const std::string& code) {
    try {
        return code == defaults.find(Default::candidate).value_or("me");
    } catch (const Error&) {
        return true;
    }
}

const char* name(Default setting) noexcept {
    return known()[static_cast<std::size_t>(setting)].name;
}

const std::vector<Default>& all_defaults() {
    static const std::vector<Default> all{Default::candidate,   Default::extra_time,   Default::of_class,
                                          Default::week_starts, Default::availability, Default::colours,
                                          Default::paper_size};
    return all;
}

} // namespace inkturn
