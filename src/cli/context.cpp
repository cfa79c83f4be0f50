#include "cli/context.hpp"

#include "cli/local_time.hpp"
#include "cli/terminal.hpp"
#include "cli/weekday_time.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/long_ago.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/clock/allowance.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <set>

namespace inkturn {
namespace {

namespace fs = std::filesystem;

/// In $XDG_DATA_HOME if that is absolute, or else in ~/.local/share.
fs::path data_folder() {
    const char* xdg = std::getenv("XDG_DATA_HOME");
    if (xdg && *xdg == '/')
        return fs::path(xdg) / "inkturn";
    const char* home = std::getenv("HOME");
    if (!home || !*home)
        throw Error("neither XDG_DATA_HOME nor HOME is set: use --store FILE");
    return fs::path(home) / ".local" / "share" / "inkturn";
}

std::string default_store(bool to_write) {
    const fs::path folder = data_folder();
    if (to_write) {
        std::error_code failure;
        if (fs::create_directories(folder, failure))
            fs::permissions(folder, fs::perms::owner_all, failure);
        if (failure)
            throw StoreError("making the folder", folder.string(), failure.message(),
                             Error::Kind::unreadable);
    }
    return (folder / "store.inkturn").string();
}

using Papers = std::vector<std::shared_ptr<const Paper>>;

Error no_paper(const Store& on_file, const std::string& id, const std::string& remedy) {
    if (on_file.has_class(id))
        return Error("no paper " + id + " on file; it is a class: name it with --class " + shell_word(id));
    std::vector<std::string> ids;
    for (const auto& paper : on_file.papers())
        ids.push_back(paper->id());
    return Error("no paper " + id + " on file" + meant(id, ids, remedy));
}

std::string id_text(SittingId id) {
    return std::to_string(static_cast<std::int64_t>(id));
}

} // namespace

std::string meant(const std::string& typed, const std::vector<std::string>& names,
                  const std::string& else_do) {
    const auto nearest = nearest_name(typed, names);
    return "; " + (nearest ? "did you mean " + *nearest + "?" : else_do);
}

std::vector<std::string> topics_sat(const Candidate& candidate) {
    std::set<std::string> topics;
    for (const SittingRecord& record : candidate.sittings)
        for (const Part& part : record.paper->parts())
            topics.insert(part.topic);
    topics.erase("");
    return {topics.begin(), topics.end()};
}

Day Context::date_today() const {
    if (const auto day = read_iso_day(today))
        return *day;
    const Day local = local_day(moment_now());
    return today.empty() ? local : parse_day(today, local);
}

Day Context::date_of(const std::string& text) const {
    const Day reference = date_today();
    return text.empty() ? reference : parse_day(text, reference);
}

Store Context::store_to_read() const {
    return Store::open_to_read(store_file(), occasion());
}
Store Context::store_to_write() const {
    return Store::open(store.empty() ? default_store(true) : store, occasion());
}
std::string Context::store_file() const {
    return store.empty() ? default_store(false) : store;
}

Occasion Context::occasion() const {
    return {typed, moment_now(), [is_stored = stored] { *is_stored = true; }};
}

Day Context::date_passed(const std::string& text) const {
    const Day reference = date_today();
    return text.empty() ? reference : parse_day(text, reference, WeekdayMeans::last);
}

Day Context::date_done(const std::string& text) const {
    const Day day = date_passed(text);
    if (is_long_ago(day, date_today()))
        question(long_ago_text(day), "Is that the day?", "type the date again");
    return day;
}

Day Context::date_of_exam(const std::string& text) const {
    const Day day = date_of(text);
    if (is_far_off(day, date_today()))
        question(far_off_text(day) + ", further than plans look", "Is that the day?", "type the date again");
    return day;
}

Day Context::date_ahead(const std::string& text, bool is_stored) const {
    const Day day = date_of(text);
    if (is_far_ahead(day, date_today()))
        question(far_ahead_text(day), "Is that the day?", "type the date again", is_stored);
    return day;
}

void Context::question_duration(const Paper& paper) const {
    if (paper.duration() && !is_usual_time(*paper.duration(), paper.marks()))
        question(paper.id() + " has " + length_text(*paper.duration()) + " for " +
                     counted_marks(paper.marks()) + ", and papers have half a minute to three minutes a mark",
                 "Is that its time?", "type the --minutes again");
}

void Context::question(const std::string& doubt, const std::string& ask, const std::string& again,
                       bool is_stored) const {
    if (json || !stdin_is_terminal() || !stderr_is_terminal())
        err << "inkturn: note: " << doubt << "; if it is wrong, "
            << (is_stored ? "'inkturn undo' takes it back" : again) << '\n';
    else if (!confirmed(doubt + ". " + ask))
        throw Error((is_stored ? "nothing was stored: " : "nothing was written: ") + again);
}

std::shared_ptr<const Paper> Context::paper_on_file(const Store& on_file, const std::string& id,
                                                    const std::string& remedy) {
    if (auto paper = on_file.find_paper(id))
        return paper;
    Papers beginning_so;
    for (auto& paper : on_file.papers())
        if (paper->id().rfind(id, 0) == 0)
            beginning_so.push_back(std::move(paper));
    if (beginning_so.size() == 1)
        return beginning_so.front();
    if (beginning_so.size() > 1)
        throw Error("paper " + id + " may be " + beginning_so[0]->id() + " or " + beginning_so[1]->id() +
                    ": type more of its id");
    throw no_paper(on_file, id, remedy);
}

std::shared_ptr<const Paper> Context::paper_by_whole_id(const Store& on_file, const std::string& id) {
    if (auto paper = on_file.find_paper(id))
        return paper;
    throw no_paper(on_file, id, "'inkturn paper list' lists the papers");
}

std::string Context::candidate_code() const {
    if (!candidate.empty()) {
        check_candidate_code(candidate);
        return candidate;
    }
    const auto usual = defaults->find(Default::candidate);
    *candidate_by_default = usual.has_value();
    return usual.value_or("me");
}

std::string Context::same_candidate() const {
    const char* named = std::getenv("INKTURN_CANDIDATE");
    const bool is_typed = !candidate.empty() && (named == nullptr || candidate != named);
    return is_typed ? " --candidate " + shell_word(candidate) : "";
}

Candidate Context::candidate_on_file(const Store& on_file) const {
    const std::string code = candidate_code();
    if (!candidate.empty() && !on_file.has_candidate(code))
        throw Error("no candidate " + code + " on file" +
                    meant(code, on_file.candidates(), "check --candidate, or log a sitting first"));
    Candidate found = on_file.candidate(code);
    if (const auto times = times_by_default(on_file, code)) {
        found.own_times = *times;
        found.availability = availability_of(*times, {});
    }
    return found;
}

std::optional<StatedTimes> Context::times_by_default(const Store& on_file, const std::string& code) const {
    if (on_file.has_candidate(code) || !defaults->may_be_for(code))
        return std::nullopt;
    const auto stated = defaults->find(Default::availability);
    if (!stated || code != defaults->find(Default::candidate).value_or("me"))
        return std::nullopt;
    StatedTimes times;
    for (const WeekdayTime& day : parse_week(split_at_blanks(*stated)))
        times.week[day.weekday] = day.available;
    return times;
}

void Context::tell_default(Default setting, const std::string& what) const {
    err << "inkturn: note: " << visible(what) << ", by " << visible(defaults->place_of(setting)) << '\n';
}

Candidate Context::candidate_of(const Store& on_file, SittingId sitting) const {
    const auto code = on_file.candidate_of(sitting);
    if (!code)
        throw Error("no sitting " + id_text(sitting) +
                    " on file; 'inkturn sitting list' lists a candidate's sittings");
    if (!candidate.empty() && candidate_code() != *code)
        throw Error("sitting " + id_text(sitting) + " belongs to candidate " + *code + ", not " + candidate);
    return on_file.candidate(*code);
}

/// A mistake in the file is `inkturn config`'s to tell: it should stop nobody from reading plain text.
bool Context::takes_styles() const {
    if (no_colour || !stdout_takes_styles())
        return false;
    try {
        return defaults->find(Default::colours) != "no";
    } catch (const Error&) {
        return false;
    }
}

std::string Context::heading(const std::string& text) const {
    return takes_styles() ? "\x1b[1m" + text + "\x1b[0m" : text;
}

void Context::answer(const std::function<std::string()>& document, const std::function<void()>& print) const {
    if (json)
        out << document() << '\n';
    else
        print();
}

bool Context::confirmed(const std::string& question) const {
    if (!stdin_is_terminal())
        throw Error(question + " There is no terminal to ask on: use --yes; nothing was changed");
    err << question + " [y/N] " << std::flush; // in one piece: standard error is not buffered
    std::string answer;
    std::getline(in, answer);
    return answer == "y" || answer == "Y" || answer == "yes";
}

InputFile::InputFile(const std::string& name, const Context& context) : name_(name), stream_(&context.in) {
    if (name == "-") {
        name_ = "standard input";
        return;
    }
    std::error_code failure;
    if (fs::is_directory(name, failure))
        throw Error("'" + name + "' is a folder; name a file");
    file_ = std::make_unique<std::ifstream>(name, std::ios::binary);
    if (!*file_)
        throw Error("'" + name + "' can't be read: " + std::strerror(errno));
    stream_ = file_.get();
    context.files_read->add(name);
    const auto size = fs::file_size(name, failure);
    if (!failure && size > 0) // a device says 0
        size_ = static_cast<std::size_t>(size);
}

InputFile::~InputFile() = default;

} // namespace inkturn
