#include "cli/class.hpp"
#include "cli/csv_options.hpp"

#include "exchange/json.hpp"
#include "exchange/wishes_csv.hpp"
#include "inkturn/error.hpp"
#include "inkturn/number.hpp"
#include "inkturn/topic.hpp"
#include "sheet/table.hpp"
#include "sheet/text.hpp"

#include <algorithm>
#include <iostream>

namespace inkturn {
namespace {

struct Options {
    std::string classes;
    std::string places;
    std::string topics_each = "1";
    std::string each = "1";
    std::string wishes;
    std::string of_class;
    std::string subject;
    CsvOptionTexts csv;
    bool json = false;
};

SeatsAsked asked_in(const Options& options) {
    const auto number = [](const std::string& text, int most, const std::string& what) {
        return static_cast<std::size_t>(parse_whole_number(text, 1, most, what));
    };
    return {number(options.classes, 64, "--classes"), number(options.places, 10'000, "--places"),
            number(options.topics_each, 64, "--topics-each"), number(options.each, 64, "--each")};
}

bool is_of_subject(const SittingRecord& record, const std::string& subject) {
    return subject.empty() || record.paper->subject() == subject;
}

LostMarks lost_on_file(const Store& store, const Options& options) {
    std::vector<CandidateLost> candidates;
    for (const std::string& code : codes_of(store, options.of_class)) {
        Candidate candidate = store.candidate(code);
        candidate.sittings.erase(std::remove_if(candidate.sittings.begin(), candidate.sittings.end(),
                                                [&](const SittingRecord& record) {
                                                    return !is_of_subject(record, options.subject);
                                                }),
                                 candidate.sittings.end());
        candidates.push_back({code, lost_by_topic(candidate)});
    }
    return lost_marks(candidates);
}

std::vector<Wish> read_wishes(const Context& context, const Options& options, const LostMarks& lost) {
    const InputFile file(options.wishes, context.in);
    ProblemList problems;
    std::vector<Wish> wishes = read_wishes_csv(
        file.stream(), options.csv.read(),
        {{lost.candidates.begin(), lost.candidates.end()}, {lost.topics.begin(), lost.topics.end()}},
        problems);
    refuse_problems(context, file.name(), problems, "nothing was planned");
    return wishes;
}

void print_class(const Context& context, std::size_t number, const SeatPlan::RevisionClass& one,
                 const LostMarks& lost, std::size_t places) {
    std::vector<std::string> topics;
    for (const std::size_t topic : one.topics)
        topics.push_back(visible(lost.topics[topic]));
    Marks marks;
    std::vector<std::string> seats;
    for (const auto& [candidate, won] : one.seats) {
        marks += won;
        seats.push_back(visible(lost.candidates[candidate]) + " " + std::to_string(won.count()));
    }
    context.out << '\n' << context.heading("Class " + std::to_string(number)) << ": ";
    if (topics.empty()) {
        context.out << "not needed\n";
        return;
    }
    context.out << wrapped_list(topics, Table::full_width - 12, 2) << '\n'
                << "  " << one.seats.size() << " of " << places << " places, " << marks.count() << " marks\n"
                << "  " << wrapped_list(seats, Table::full_width - 2, 2) << '\n';
}

void print(const Context& context, const SeatsAsked& asked, const LostMarks& lost, const SeatPlan& plan) {
    if (plan.marks == Marks(0)) {
        context.out << "There is nothing to win back: of the marks that count here none was lost on a\n"
                       "topic. Topics stand in a column of a paper's CSV.\n"
                       "Next: inkturn paper list\n";
        return;
    }
    context.out << context.heading("Revision classes") << ": " << plan.marks.count()
                << " lost marks can be won back by those who are seated.\n"
                << (plan.bound == plan.marks
                        ? "No plan wins more.\n"
                        : "No plan wins more than " + std::to_string(plan.bound.count()) +
                              ": whether one comes nearer to that was not found out.\n");
    for (std::size_t i = 0; i < plan.classes.size(); ++i)
        print_class(context, i + 1, plan.classes[i], lost, asked.places);
    std::vector<std::string> left_out;
    for (const std::string& candidate : left_out_of(plan, lost))
        left_out.push_back(visible(candidate));
    if (!left_out.empty())
        context.out << "\nLeft out:\n  " << wrapped_list(left_out, Table::full_width - 2, 2) << '\n';
    context.out << "\nBeside each candidate stand the marks lost on the class's topics in the latest\n"
                   "attempts. Marks don't say who needs help most: that is your judgement.\n"
                   "Next: inkturn class retries\n";
}

void run(const Context& context, const Options& options) {
    const SeatsAsked asked = asked_in(options);
    const Store store = context.store_to_read();
    LostMarks lost = lost_on_file(store, options);
    if (!options.wishes.empty())
        keep_wished(lost, read_wishes(context, options, lost));
    const SeatPlan plan = plan_seats(asked, lost.marks);
    if (options.json)
        context.out << json_of(plan, lost).dump(2) << '\n';
    else
        print(context, asked, lost, plan);
}

} // namespace

void add_class_seats(CLI::App& group, Context& context) {
    auto options = std::make_shared<Options>();
    CLI::App* seats = group.add_subcommand("seats", "Who should sit in which revision class, and on what");
    seats->add_option("--classes", options->classes, "How many revision classes")->type_name("K")->required();
    seats->add_option("--places", options->places, "Places in each")->type_name("P")->required();
    seats->add_option("--topics-each", options->topics_each, "The most topics one class takes (1)")
        ->type_name("T");
    seats->add_option("--each", options->each, "The most classes one candidate sits (1)")->type_name("N");
    seats
        ->add_option(
            "--wishes", options->wishes,
            "A CSV of candidate,topic: seat only those, on topics they ask for; an empty topic is any")
        ->type_name("FILE");
    add_class_option(*seats, options->of_class, "Only candidates of this class (all on file)");
    seats->add_option("--subject", options->subject, "Only papers of this subject (all)")->type_name("S");
    options->csv.add_to(*seats);
    seats->add_flag("--json", options->json, "Print JSON");
    seats->footer("Example:\n  inkturn class seats --classes 3 --places 8 --topics-each 2");
    seats->callback([options, &context] { context.run = [options, &context] { run(context, *options); }; });
}

} // namespace inkturn
