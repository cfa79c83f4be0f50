#include "cli/change_text.hpp"
#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/desk/at_desk.hpp"
#include "cli/desk/mark_answers.hpp"
#include "cli/entries.hpp"
#include "cli/remedies.hpp"
#include "cli/student/retry_outcome.hpp"
#include "cli/student/timetable_on_file.hpp"
#include "cli/terminal.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/desk/part_on_clock.hpp"
#include "inkturn/paper/codes.hpp"
#include "inkturn/store/change.hpp"
#include "view/text/clock_face.hpp"
#include "view/text/marking.hpp"
#include "view/text/retries.hpp"
#include "view/text/sittings.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <utility>

namespace inkturn {
namespace {

struct MarkOptions {
    std::string sitting;
    std::string only;
};

/// What is being marked: a script on the desk, or a sitting on file turned into one.
struct Work {
    Script script;
    bool on_desk;
};

Script as_script(const std::string& candidate, const SittingRecord& record) {
    const Sitting& sitting = record.sitting;
    Script script = blank_script(candidate, record.paper, sitting.day, sitting.extra_time);
    script.id = script_id(record.id);
    script.marks.assign(sitting.parts.begin(), sitting.parts.end());
    script.events = sitting.clock;
    script.notes = sitting.notes;
    return script;
}

[[noreturn]] void refuse_unwritten(const Context& context, const Store& store, const RetryId& id) {
    const Day today = context.date_today();
    check_can_be_taken(context.candidate_of(store, id.sitting), id, today, today);
    throw Error("retry " + to_text(id) + " hasn't been written yet: 'inkturn retry " + to_text(id) +
                " --sit' runs its clock, 'inkturn retry " + to_text(id) + " ENTRY...' records its marks");
}

Work get_work(const Context& context, Store& store, const ScriptId& id) {
    if (auto script = script_on_file(context, store, id)) {
        check_is_handed_in(*script);
        return {std::move(*script), true};
    }
    if (id.retry)
        refuse_unwritten(context, store, *id.retry);
    const Candidate candidate = context.candidate_of(store, id.sitting);
    return {as_script(candidate.code, get_sitting(candidate, id.sitting)), false};
}

/// The one that is to be marked, if nothing was typed.
ScriptId only_script_to_mark(const Context& context, const Store& store) {
    std::vector<ScriptId> to_mark;
    for (const Script& script : Desk::scripts(store, context.candidate_code()))
        if (script.is_handed_in())
            to_mark.push_back(script.id);
    if (to_mark.empty())
        throw Error("nothing is waiting to be marked; 'inkturn mark SITTING' goes through one again, "
                    "'inkturn sitting list' lists them");
    if (to_mark.size() > 1)
        throw Error("several are waiting to be marked: name one, such as 'inkturn mark " +
                    to_text(to_mark[0]) + "' or 'inkturn mark " + to_text(to_mark[1]) + "'");
    return to_mark.front();
}

void check_has_terminal(const Script& script) {
    if (stdin_is_terminal() && stdout_is_terminal())
        return;
    const std::string part = script.paper->parts()[script.positions.back()].label;
    throw Error("mark needs a terminal; without one, 'inkturn sitting amend " + to_text(script.id) + " " +
                part + "=MARKS' enters marks for this sitting, 'inkturn log' for one that isn't on file");
}

/// Asks for the marks part by part. Each answer is stored before the next question.
class Walk {
  public:
    Walk(const Context& context, Store& store, Work& work)
        : context_(context), store_(store), work_(work), seen_(parts_on_clock(work.script)) {}

    void keep_only(const std::vector<std::size_t>& positions) {
        keep_changed([&](Script& script) { inkturn::keep_only(script, positions, work_.on_desk); });
        seen_ = parts_on_clock(work_.script);
    }

    void run() {
        print_opening();
        std::optional<std::size_t> place = next_from(0);
        while (place) {
            switch (visit(*place)) {
            case Step::forward:
                place = next_place(*place);
                break;
            case Step::again:
                break;
            case Step::back:
                --*place;
                break;
            case Step::stop:
                return;
            }
        }
    }

  private:
    enum class Step { forward, again, back, stop };

    void print_opening() const {
        const Script& script = work_.script;
        Marks marks;
        std::size_t parts = 0;
        for (std::size_t place = 0; place < script.positions.size(); ++place)
            if (script.is_set(place)) {
                marks += part(place).max;
                ++parts;
            }
        context_.out << context_.heading(heading_of(script)) << '\n'
                     << count_text(static_cast<std::size_t>(marks.count()), "mark") << " in "
                     << count_text(parts, "part");
        const std::size_t left = not_marked(script).size();
        if (work_.on_desk && left < parts)
            context_.out << ", " << parts - left << " marked";
        context_.out << '\n' << help_on_answers;
    }

    /// Of a script, only the parts still to mark are asked for; of a sitting, all that were set.
    std::optional<std::size_t> next_place(std::size_t place) const { return next_from(place + 1); }
    std::optional<std::size_t> next_from(std::size_t place) const {
        const auto& marks = work_.script.marks;
        while (place < marks.size() &&
               (work_.on_desk ? marks[place].has_value() : !work_.script.is_set(place)))
            ++place;
        return place < marks.size() ? std::optional(place) : std::nullopt;
    }

    const Part& part(std::size_t place) const {
        return work_.script.paper->part(work_.script.positions[place]);
    }
    const PartOnClock* seen(std::size_t place) const { return seen_.empty() ? nullptr : &seen_[place]; }

    std::optional<std::string> ask(const std::string& prompt) const { return asked(context_, prompt); }

    void say(const std::string& text) const {
        context_.out << "  " << wrapped(visible(text), text_columns() - 2, 2) << '\n';
    }

    Step visit(std::size_t place) {
        context_.out << '\n'
                     << marking_text(part(place), seen(place), work_.script.marks[place], text_columns())
                     << '\n';
        for (;;) {
            const auto typed = ask("marks>");
            if (!typed)
                return Step::stop;
            switch (word_of(*typed)) {
            case AnswerWord::back:
                if (place > 0)
                    return Step::back;
                say("this is the first part");
                break;
            case AnswerWord::skip:
                return Step::forward;
            case AnswerWord::stop:
                return Step::stop;
            case AnswerWord::help:
                context_.out << help_on_answers;
                break;
            case AnswerWord::full:
                if (const auto step = take(place, std::to_string(part(place).max.count())))
                    return *step;
                break;
            case AnswerWord::none:
                if (const auto step = take(place, *typed))
                    return *step;
                break;
            }
        }
    }

    /// Nothing if the marks must be asked for again.
    std::optional<Step> take(std::size_t place, const std::string& typed) {
        try {
            const auto before = work_.script.marks[place];
            const Phase first = seen(place) ? first_phase(*seen(place)) : Phase::in_time;
            PartMarks marks = read_marks(typed, part(place), first);
            const bool states_reason = marks.reason().has_value();
            const bool is_open = first == Phase::overtime && is_bare(typed) && marks.in_time() > Marks(0);
            if (is_open)
                marks = exchanged(marks, part(place).max);
            marks = with_known(marks, before, part(place).max);
            keep(place, marks);
            Step step = Step::forward;
            if (is_open)
                step = settle_phase(place, marks);
            else if (is_overtime_doubtful(seen_, marks))
                step = settle_doubt(place, marks, before);
            if (is_coded(typed)) {
                say(inks_text(marks));
                step = check_accuracy(place, marks, before);
            }
            if (step != Step::forward || !marks.is_set() || marks.unaided() == part(place).max)
                return step;
            return states_reason ? ask_note(place) : ask_reason(place, marks);
        } catch (const Error& error) {
            say(worded(error));
            return std::nullopt;
        }
    }

    /// Asks whether marks count as overtime, if the clock saw the part only then.
    Step settle_phase(std::size_t place, PartMarks& marks) {
        const auto typed =
            ask(std::to_string(marks.overtime().count()) + " in overtime, by the clock? [Y/n]");
        if (!typed || word_of(*typed) == AnswerWord::stop)
            return Step::stop;
        if (word_of(*typed) == AnswerWord::back)
            return Step::again;
        const std::string answer = lower_case(*typed);
        if (answer != "n" && answer != "no")
            return Step::forward;
        marks = exchanged(marks, part(place).max);
        keep(place, marks);
        return Step::forward;
    }

    /// Asks whether marks came in overtime all the same, though the clock never reached it; if not, restores
    /// the marks from before and asks for them again.
    Step settle_doubt(std::size_t place, const PartMarks& marks, const std::optional<PartMarks>& before) {
        const auto typed = ask("The clock never reached overtime. " +
                               std::to_string(marks.overtime().count()) + " in overtime all the same? [y/N]");
        if (!typed || word_of(*typed) == AnswerWord::stop)
            return Step::stop;
        if (word_of(*typed) == AnswerWord::back)
            return Step::again;
        const std::string answer = lower_case(*typed);
        if (answer == "y" || answer == "yes")
            return Step::forward;
        keep(place, before);
        return Step::again;
    }

    /// Asks whether accuracy follows through if its method was not earned; if not, restores the marks from
    /// before.
    Step check_accuracy(std::size_t place, const PartMarks& marks, const std::optional<PartMarks>& before) {
        const auto codes = accuracy_without_method(part(place), *marks.by_code());
        if (codes.empty())
            return Step::forward;
        const auto typed = ask(accuracy_question(codes));
        if (!typed || word_of(*typed) == AnswerWord::stop)
            return Step::stop;
        const std::string answer = lower_case(*typed);
        if (answer == "y" || answer == "yes")
            return Step::forward;
        keep(place, before);
        return Step::again;
    }

    /// Back returns to the part's marks.
    Step ask_reason(std::size_t place, PartMarks marks) {
        const std::string stated = marks.reason() ? " [" + std::string(name(*marks.reason())) + "]" : "";
        const std::string prompt =
            std::to_string((part(place).max - marks.unaided()).count()) + " lost" + stated + ", reason>";
        for (;;) {
            const auto typed = ask(prompt);
            if (!typed || word_of(*typed) == AnswerWord::stop)
                return Step::stop;
            if (word_of(*typed) == AnswerWord::back)
                return Step::again;
            if (typed->empty() || *typed == "skip")
                return Step::forward;
            if (word_of(*typed) == AnswerWord::help) {
                context_.out << help_on_reasons;
                continue;
            }
            try {
                if (*typed == "-")
                    marks.drop_reason();
                else
                    marks.state_reason(parse_reason(*typed), part(place).max);
                keep(place, marks);
                return marks.reason() ? ask_note(place) : Step::forward;
            } catch (const Error& error) {
                say(worded(error));
            }
        }
    }

    /// Asks what to remember of a part with a reason. Back returns to the part's marks.
    Step ask_note(std::size_t place) {
        const std::string& label = part(place).label;
        for (;;) {
            const auto noted = work_.script.notes.find(label);
            const bool has_note = noted != work_.script.notes.end();
            const auto typed = ask(has_note ? "note [" + visible(noted->second) + "]>" : "note>");
            if (!typed || word_of(*typed) == AnswerWord::stop)
                return Step::stop;
            if (word_of(*typed) == AnswerWord::back)
                return Step::again;
            if (typed->empty() || word_of(*typed) == AnswerWord::skip)
                return Step::forward;
            if (word_of(*typed) == AnswerWord::help) {
                context_.out << help_on_notes;
                continue;
            }
            try {
                const std::string text = note_meant(*typed);
                if (!text.empty())
                    check_note(label, text);
                keep_note(label, text);
                return Step::forward;
            } catch (const Error& error) {
                say(worded(error));
            }
        }
    }

    /// Stores the note on one part; without a text it is removed.
    void keep_note(const std::string& label, const std::string& text) {
        keep_changed([&](Script& now) { now.notes = amended(std::move(now.notes), {{label, text}}); });
    }

    void keep(std::size_t place, const std::optional<PartMarks>& marks) {
        keep_changed([&](Script& script) { script.marks[place] = marks; });
    }

    /// Stores what is changed, along with any marks that another window has stored since.
    template <typename ChangeIt>
    void keep_changed(const ChangeIt& change_it) {
        Store::Change change(store_);
        Script now = work_.on_desk ? on_desk() : on_file();
        change_it(now);
        if (work_.on_desk)
            Desk(change).keep_marks(now);
        else
            change_sitting(change, sitting_of(now));
        change.commit();
        work_.script = std::move(now);
    }

    Script on_desk() const { return Desk::find(store_, work_.script.id).value_or(work_.script); }
    Script on_file() const {
        const Candidate candidate = context_.candidate_of(store_, work_.script.id.sitting);
        return as_script(candidate.code, get_sitting(candidate, work_.script.id.sitting));
    }

    void change_sitting(Store::Change& change, const Sitting& sitting) {
        const SittingId id = work_.script.id.sitting;
        const Day today = context_.date_today();
        keep_days_passed(change, context_.candidate_of(store_, id).code, today);
        const Candidate before = context_.candidate_of(store_, id);
        const SittingRecord& record = get_sitting(before, id);
        check_can_replace(*record.paper, sitting, record, today);
        change.change_sitting(id, sitting);
        keep_timetable(change, store_.candidate(before.code), today);
    }

    const Context& context_;
    Store& store_;
    Work& work_;
    std::vector<PartOnClock> seen_;
};

/// Replaces a script that is marked through with its sitting or re-attempt.
MarkedThrough finish(const Context& context, Store& store, const Script& script) {
    try {
        Store::Change change(store);
        MarkedThrough marked = keep_marks(change, script, context.date_today()).value();
        change.commit();
        return marked;
    } catch (const Error& error) {
        throw Error(worded(error) + ". The marks of " + to_text(script.id) +
                    " stay as they are: 'inkturn mark " + to_text(script.id) +
                    "' tries again, 'inkturn sitting remove " + to_text(script.id) + "' drops them");
    }
}

/// A sitting that was marked before has its retries already.
MarkedThrough on_file(const Context& context, const Store& store, SittingId id) {
    MarkedThrough marked{context.candidate_of(store, id), {}};
    marked.kept.retries = retries_on_file(store, marked.candidate, context.date_today());
    return marked;
}

void print_not_marked(const Context& context, const Script& script) {
    context.out << "\nStill to mark: " << wrapped_list(not_marked(script), text_width() - 15, 2)
                << ".\nNext: " << next_command(script) << '\n';
}

/// What of a sitting that was on file already was marked otherwise.
void print_amended_marks(const Context& context, const Script& was, const Script& is) {
    const std::vector<std::string> lines = differences(*is.paper, sitting_of(was), sitting_of(is));
    if (!lines.empty())
        context.out << context.heading("Amended") << '\n' << amended_text(lines) << '\n';
}

void mark(const Context& context, const MarkOptions& options) {
    Store store = context.store_to_write();
    const ScriptId id =
        options.sitting.empty() ? only_script_to_mark(context, store) : parse_script_id(options.sitting);
    if (id.retry && !options.only.empty())
        throw UsageError("--only is for a sitting: 'inkturn retry' says which parts a retry tried");
    Work work = get_work(context, store, id);
    check_has_terminal(work.script);
    const Script before = work.script;
    Walk walk(context, store, work);
    if (!options.only.empty())
        walk.keep_only(*parse_only(*work.script.paper, options.only));
    walk.run();
    if (!work.script.is_marked()) {
        print_not_marked(context, work.script);
        return;
    }
    const auto [candidate, kept] =
        work.on_desk ? finish(context, store, work.script) : on_file(context, store, work.script.id.sitting);
    context.out << '\n';
    if (!work.on_desk)
        print_amended_marks(context, before, work.script);
    if (work.script.id.retry) {
        context.out << wrapped(clock_summary(clock_of(work.script)), text_width()) << '\n';
        print_retried(context, candidate, *work.script.id.retry, kept);
    } else {
        print_sitting(context, candidate, work.script.id.sitting, kept);
    }
}

} // namespace

void add_mark(Command& line) {
    auto options = std::make_shared<MarkOptions>();
    Command mark_one = line.command("mark", "Enter a paper's marks part by part, by ink");
    mark_one.argument("SITTING", options->sitting,
                      "A sitting's number, or the id of a retry sat against the clock (the one still to be "
                      "marked)");
    mark_one.option("--only", options->only, "1-3,7", "Only these parts and questions were set (all)");
    mark_one.closing(marks_help() +
                     "\nAsks for each part in turn, on a terminal. Every answer is stored at once: stop\n"
                     "or close the window, and the same command carries on with the first part still\n"
                     "to mark. Once all are marked, it goes through the whole sitting again.\n"
                     "Example:\n  inkturn mark 12");
    mark_one.runs(options, mark);
}

} // namespace inkturn
