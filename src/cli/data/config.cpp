#include "cli/commands.hpp"
#include "cli/context.hpp"

#include "exchange/json/config.hpp"
#include "inkturn/base/error.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <cstdlib>
#include <iostream>

namespace inkturn {
namespace {

/// A value that was typed, or else is in the environment.
std::optional<SettingShown> named_outside(const char* name, const std::string& value, const char* variable) {
    if (value.empty())
        return std::nullopt;
    const char* in_environment = std::getenv(variable);
    return SettingShown{name, value, in_environment && value == in_environment ? "environment" : "option"};
}

/// By the file; what it states wrongly has no value.
std::optional<SettingShown> stated_in_file(const Defaults& defaults, Default setting) {
    for (const StatedDefault& one : defaults.file().stated)
        if (one.setting == setting)
            return SettingShown{name(setting), one.wrong.empty() ? one.value : "", "file", one.line};
    return std::nullopt;
}

SettingShown in_file_or(const Defaults& defaults, Default setting, const std::string& built_in) {
    return stated_in_file(defaults, setting).value_or(SettingShown{name(setting), built_in, "built_in"});
}

/// Of the candidate, if it is on file; nothing where the file of defaults states wrongly whose they are, or
/// the store can't be read.
std::optional<Candidate> candidate_shown(const Context& context) {
    try {
        const Store store = context.store_to_read();
        const std::string code = context.candidate_code();
        return store.has_candidate(code) ? std::optional(store.candidate(code)) : std::nullopt;
    } catch (const Error&) {
        return std::nullopt;
    }
}

std::string week_text(const StatedTimes& times) {
    std::string text;
    for (unsigned i = 0; i < times.week.size(); ++i)
        if (times.week[i])
            text += (text.empty() ? "" : " ") + std::string(weekday_name(i)) + "=" +
                    std::to_string(times.week[i]->count() / 60);
    return text;
}

SettingShown candidate_setting(const Context& context) {
    if (auto named = named_outside("candidate", context.candidate, "INKTURN_CANDIDATE"))
        return *std::move(named);
    return in_file_or(*context.defaults, Default::candidate, "me");
}

/// Whether the candidate may be the one whom the file names, for whom alone its extra time and times count.
bool is_candidate_of_file(const Context& context) {
    return context.candidate.empty() || context.defaults->may_be_for(context.candidate);
}

SettingShown extra_time_setting(const Context& context, const std::optional<Candidate>& candidate) {
    if (candidate && candidate->extra_time)
        return {"extra-time", std::to_string(candidate->extra_time->percent()), "store"};
    return is_candidate_of_file(context) ? in_file_or(*context.defaults, Default::extra_time, "0")
                                         : SettingShown{"extra-time", "0", "built_in"};
}

SettingShown availability_setting(const Context& context, const std::optional<Candidate>& candidate) {
    if (candidate && !week_text(candidate->own_times).empty())
        return {"availability", week_text(candidate->own_times), "store"};
    const std::string built_in = week_text(stated(Availability()));
    return candidate || !is_candidate_of_file(context)
               ? SettingShown{"availability", built_in, "built_in"}
               : in_file_or(*context.defaults, Default::availability, built_in);
}

/// How many days of a week stay free at least.
SettingShown free_days_setting(const std::optional<Candidate>& candidate) {
    const Availability availability = candidate ? candidate->availability : Availability();
    const bool is_set =
        candidate && (candidate->own_times.free_days || availability.free_days != Availability().free_days);
    return {"free-days", std::to_string(availability.free_days.count()), is_set ? "store" : "built_in"};
}

SettingShown colours_setting(const Context& context) {
    const char* no_colour = std::getenv("NO_COLOR");
    if (context.no_colour)
        return {"colours", "no", "option"};
    if (no_colour && *no_colour)
        return {"colours", "no", "environment"};
    return in_file_or(*context.defaults, Default::colours, "yes");
}

std::vector<SettingShown> settings_of(const Context& context) {
    const Defaults& defaults = *context.defaults;
    const auto candidate = candidate_shown(context);
    return {candidate_setting(context),
            extra_time_setting(context, candidate),
            in_file_or(defaults, Default::of_class, ""),
            in_file_or(defaults, Default::week_starts, ""),
            availability_setting(context, candidate),
            free_days_setting(candidate),
            colours_setting(context),
            in_file_or(defaults, Default::paper_size, "A4"),
            named_outside("today", context.today, "INKTURN_TODAY")
                .value_or(SettingShown{"today", iso(context.date_today()), "built_in"}),
            named_outside("store", context.store, "INKTURN_STORE")
                .value_or(SettingShown{"store", context.store_file(), "built_in"})};
}

std::vector<std::string> mistakes_of(const Defaults& defaults) {
    std::vector<std::string> texts;
    for (const DefaultMistake& mistake : defaults.mistakes())
        texts.push_back(to_text(mistake));
    return texts;
}

/// What is used where a setting has no value.
std::string value_text(const SettingShown& one) {
    if (!one.value.empty())
        return one.name == "extra-time"  ? one.value + "%"
               : one.name == "free-days" ? one.value + " of each week at least"
                                         : one.value;
    return one.from == "file" ? "see below" : one.name == "class" ? "all" : "-";
}

std::string from_text(const SettingShown& one) {
    if (one.from == "file")
        return "line " + std::to_string(one.line);
    return one.from == "store" ? "the store" : one.from == "built_in" ? "built in" : "the " + one.from;
}

bool is_extra_time_by_file(const SettingShown& one) {
    return one.name == "extra-time" && one.from == "file" && one.value != "0" && !one.value.empty();
}

void print(const Context& context, const ConfigShown& config) {
    context.out << context.heading("Defaults") << ": " << visible(config.file)
                << (config.is_there ? "" : " (not there)") << "\n\n";
    Table table({{"setting"}, {"from"}, {"value", Table::Align::left_may_be_cut}});
    for (const SettingShown& one : config.settings)
        table.add_row({one.name, from_text(one), value_text(one)});
    context.out << table << '\n';
    const auto& all = config.settings;
    if (std::any_of(all.begin(), all.end(), is_extra_time_by_file))
        context.out << text_line("The extra time counts for the file's candidate alone, where the store has "
                                 "none for them. Only the centre and the awarding body can grant it.");
    for (const std::string& mistake : config.mistakes)
        context.out << text_line("Mistake, " + visible(mistake) + (mistake.back() == '?' ? "" : "."));
    context.out << "What can be written there: inkturn config --help\n";
}

void run(const Context& context) {
    const DefaultsFile& file = context.defaults->file();
    const ConfigShown config{file.name, file.is_there, settings_of(context), mistakes_of(*context.defaults)};
    context.answer([&] { return json_of(config); }, [&] { print(context, config); });
    if (!config.mistakes.empty())
        throw Error(count_text(config.mistakes.size(), "mistake") + " in " + config.file + ": correct " +
                    (config.mistakes.size() == 1 ? "it" : "them") + " in any editor of plain text");
}

} // namespace

void add_config(Command& line) {
    Command config = line.command("config", "Your own defaults: each one, and where it comes from");
    config.json();
    config.closing("Options come before the environment, and the environment before the file. It\n"
                   "is $XDG_CONFIG_HOME/inkturn/config, or else ~/.config/inkturn/config: write it\n"
                   "with any editor, a setting on each line; none is needed.\n"
                   "  candidate = K07              who is meant without --candidate\n"
                   "  extra-time = 25              percent, for that candidate alone; only the\n"
                   "                               centre and the awarding body can grant it\n"
                   "  class = tuesday              the class that class commands look at\n"
                   "  week-starts = mon            where week and days begin\n"
                   "  availability = mon=45 sat=0  stored with that candidate's first record\n"
                   "  colours = no                 plain text, even on a terminal\n"
                   "  paper-size = A4              or letter, for what is printed\n"
                   "  # a remark\n"
                   "Example:\n  inkturn config");
    config.runs(run);
}

} // namespace inkturn
