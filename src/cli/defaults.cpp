#include "cli/defaults.hpp"

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

/// The line, if it is about a setting.
void add_stated(DefaultsFile& file, StatedDefault stated) {
    for (const StatedDefault& before : file.stated)
        if (before.setting == stated.setting && stated.wrong.empty())
            stated.wrong = std::string(name(stated.setting)) + " is stated on line " +
                           std::to_string(before.line) + " already: take one of them out";
    file.stated.push_back(std::move(stated));
}

/// Without what some editors put before the first letter, and at the end of a line.
std::string_view without_marks(std::string_view text, std::size_t line) {
    constexpr std::string_view mark = "\xef\xbb\xbf";
    if (line == 1 && text.substr(0, mark.size()) == mark)
        text.remove_prefix(mark.size());
    if (!text.empty() && text.back() == '\r')
        text.remove_suffix(1);
    return trimmed(text);
}

/// `candidate = K07`, split; without a sign the key is the first word.
struct KeyAndValue {
    std::string key;
    std::optional<std::string> value;
};

KeyAndValue split_line(std::string_view text) {
    const std::size_t sign = text.find('=');
    if (sign == std::string_view::npos)
        return {lower_case(text.substr(0, text.find_first_of(" \t"))), std::nullopt};
    return {lower_case(trimmed(text.substr(0, sign))), std::string(trimmed(text.substr(sign + 1)))};
}

void read_line(DefaultsFile& file, const std::string& text, std::size_t line) {
    const std::string_view said = without_marks(text, line);
    if (said.empty() || said.front() == '#')
        return;
    const auto [key, value] = split_line(said);
    const auto setting = setting_named(key);
    const auto meant = setting ? setting : setting_meant(key.substr(0, key.find_first_of(" \t")));
    if (!meant)
        file.strays.push_back({line, "'" + key + "' is no setting: there are " + names_of_all()});
    else if (!value)
        add_stated(file, {*meant, "", line, std::string("write ") + name(*meant) + " = VALUE"});
    else if (!setting)
        add_stated(file,
                   {*meant, *value, line, "'" + key + "' is no setting; did you mean " + name(*meant) + "?"});
    else
        add_stated(file, {*meant, *value, line, what_is_wrong(*meant, *value)});
}

/// Why it can't be read; empty if it can.
std::string why_unreadable(const std::ifstream& in, const struct stat& status) {
    if (!S_ISREG(status.st_mode))
        return "it is not a regular file";
    if (!in)
        return std::strerror(errno);
    return static_cast<std::size_t>(status.st_size) > max_file_size ? "it is too long for a file of defaults"
                                                                    : "";
}

DefaultsFile read_file_of_defaults() {
    DefaultsFile file{config_file()};
    struct stat status {};
    if (file.name.empty() || (::stat(file.name.c_str(), &status) != 0 && errno == ENOENT))
        return file;
    file.is_there = true;
    std::ifstream in(file.name, std::ios::binary);
    file.unreadable = why_unreadable(in, status);
    if (!file.unreadable.empty()) {
        file.strays.push_back({0, "the file can't be read: " + file.unreadable});
        return file;
    }
    const std::string whole{std::istreambuf_iterator<char>(in), {}};
    if (whole.find('\0') != std::string::npos) {
        file.unreadable = "it is not plain text in UTF-8";
        file.strays.push_back({0, "the file can't be read: " + file.unreadable});
        return file;
    }
    std::istringstream lines(whole);
    std::string text;
    for (std::size_t line = 1; std::getline(lines, text); ++line)
        read_line(file, text, line);
    return file;
}

} // namespace

std::string to_text(const DefaultMistake& mistake) {
    return (mistake.line == 0 ? "" : "line " + std::to_string(mistake.line) + ": ") + mistake.what;
}

std::optional<std::string> Defaults::find(Default setting) const {
    for (const StatedDefault& one : file().stated)
        if (one.setting == setting && !one.wrong.empty())
            throw Error(shown_name() + ", line " + std::to_string(one.line) + ": " + one.wrong);
    if (!file().unreadable.empty())
        throw Error(shown_name() + " can't be read: " + file().unreadable);
    for (const StatedDefault& one : file().stated)
        if (one.setting == setting)
            return one.value;
    return std::nullopt;
}

std::string Defaults::place_of(Default setting) const {
    for (const StatedDefault& one : file().stated)
        if (one.setting == setting)
            return shown_name() + ", line " + std::to_string(one.line);
    return shown_name();
}

bool Defaults::may_be_for(const std::string& code) const {
    try {
        return code == find(Default::candidate).value_or("me");
    } catch (const Error&) {
        return true;
    }
}

const DefaultsFile& Defaults::file() const {
    if (!file_)
        file_ = read_file_of_defaults();
    return *file_;
}

std::string Defaults::shown_name() const {
    const char* home = std::getenv("HOME");
    const std::string folder = home ? std::string(home) + "/" : "";
    const std::string& name = file().name;
    return folder.size() > 1 && name.rfind(folder, 0) == 0 ? "~/" + name.substr(folder.size()) : name;
}

std::vector<DefaultMistake> Defaults::mistakes() const {
    std::vector<DefaultMistake> all = file().strays;
    for (const StatedDefault& one : file().stated)
        if (!one.wrong.empty())
            all.push_back({one.line, one.wrong});
    std::sort(all.begin(), all.end(),
              [](const DefaultMistake& a, const DefaultMistake& b) { return a.line < b.line; });
    return all;
}

const char* name(Default setting) noexcept {
    return known()[static_cast<std::size_t>(setting)].name;
}

} // namespace inkturn
