#include "cli/lesson/lesson.hpp"

#include "cli/class/class.hpp"
#include "cli/lesson/wish_file.hpp"
#include "cli/outlooks.hpp"
#include "exchange/csv/wishes.hpp"
#include "inkturn/base/error.hpp"
#include "view/page/request_form.hpp"
#include "view/page/sheet_size.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <set>
#include <sstream>

namespace inkturn {
namespace {

constexpr std::size_t topics_on_form = 6;

struct FormOptions {
    std::vector<std::string> ids;
    std::string of_class;
    std::vector<std::string> topics;
    std::vector<std::string> dates;
    std::string subject;
    bool csv = false;
    OutputOptions output;
};

/// Those that cost the class most.
std::set<std::string> costliest_topics(const Context& context, const Store& store,
                                       const std::vector<std::string>& codes, const std::string& subject) {
    std::set<std::string> topics;
    for (const TopicDiagnosis& topic : Outlooks(context, store, codes).topics_of(codes, subject, {}).topics)
        if (!topic.topic.empty() && topics.size() < topics_on_form)
            topics.insert(topic.topic);
    return topics;
}

/// Of lessons on file, or as typed, or else what costs the class most.
RequestForm form_of(const Context& context, const Store& store, const FormOptions& options) {
    RequestForm form{options.of_class, {}, {}, {}};
    if (!options.of_class.empty())
        form.candidates = codes_of(store, options.of_class);
    std::set<std::string> topics(options.topics.begin(), options.topics.end());
    std::set<Day> dates;
    for (const std::string& date : options.dates) {
        const Day day = context.date_ahead(date, false);
        check_is_ahead(day, context.date_today());
        dates.insert(day);
    }
    for (const std::string& id : options.ids) {
        const Lesson lesson = lesson_on_file(store, id);
        if (lesson.day < context.date_today())
            throw Error("lesson " + id + " was on " + iso(lesson.day) + ": a form is for lessons to come",
                        Error::Kind::conflict);
        topics.insert(lesson.topics.begin(), lesson.topics.end());
        dates.insert(lesson.day);
    }
    const std::vector<std::string> known = topics_on_file(store);
    for (const std::string& topic : options.topics)
        if (!std::binary_search(known.begin(), known.end(), topic))
            throw Error("no paper on file has the topic '" + topic + "'" +
                        meant(topic, known, "'inkturn class topics' lists them"));
    if (topics.empty())
        topics = costliest_topics(context, store, codes_of(store, options.of_class), options.subject);
    if (topics.empty())
        throw Error("there is no topic to put on the form: name some with --topic");
    form.topics.assign(topics.begin(), topics.end());
    form.dates.assign(dates.begin(), dates.end());
    return form;
}

void write_csv_form(const Context& context, const FormOptions& options, const RequestForm& form) {
    if (form.candidates.empty())
        throw UsageError("the file has a row a candidate: say whose with --class");
    std::ostringstream csv;
    write_request_form(csv, form.candidates, form.topics, form.dates);
    write_csv_output(context, options.output, csv.str());
}

void run(const Context& context, const FormOptions& options) {
    const Store store = context.store_to_read();
    const RequestForm form = form_of(context, store, options);
    if (options.csv) {
        write_csv_form(context, options, form);
        return;
    }
    if (options.output.file.empty())
        throw UsageError("name the page to write with -o, or use --csv");
    use_paper_size(context);
    write_output(context, options.output, to_html(form), OwnMark::html);
    for (const Day day : form.dates)
        if (!options.of_class.empty() && is_day_off(store.class_times(options.of_class).dates, day))
            context.err << text_line("inkturn: note: " + day_text(day) + " is a day off for class " +
                                     visible(options.of_class) + ": ask whether they can come.");
    if (options.output.file != "-")
        context.out << text_line("Wrote a form with " + count_text(form.topics.size(), "topic") + " and " +
                                 count_text(form.dates.size(), "day") + " for " +
                                 (form.candidates.empty() ? "anybody"
                                                          : count_text(form.candidates.size(), "candidate")) +
                                 ".")
                    << "Next: print it on " << sheet_size_text()
                    << "; with --csv it's a file to type the answers into\n";
}

} // namespace

void add_lesson_form(Command& group) {
    auto options = std::make_shared<FormOptions>();
    Command form =
        group.command("form", "A form on which to ask for a place: topics, days, a line for remarks");
    form.argument("ID", options->ids, "Lessons on file whose topics and days it offers");
    add_class_option(form, options->of_class,
                     "A slip for each candidate in this class (one slip, without a code)");
    form.option("--topic", options->topics, "T...", "Topics to offer (the six that cost the class most)");
    form.option("--on", options->dates, "D...", "Days to offer");
    form.option("--subject", options->subject, "S", "Only topics of this subject (all)");
    form.flag("--csv", options->csv, "The same as CSV, a row for each candidate and boxes to tick");
    options->output.add_to(form, "The page or file to write");
    form.closing("Examples:\n  inkturn lesson form --class tuesday --on 2026-12-05 2026-12-08 -o form.html\n"
                 "  inkturn lesson form --class tuesday --on 2026-12-05 2026-12-08 --csv -o form.csv\n"
                 "The filled-in file is read by 'inkturn lesson seats --wishes' and 'lesson ask --from'.");
    form.runs(options, run);
}

} // namespace inkturn
