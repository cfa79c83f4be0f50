#include "cli/commands.hpp"
#include "cli/context.hpp"
#include "cli/data/boundary_options.hpp"

#include "exchange/json/boundaries.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/number.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <iostream>

namespace inkturn {
namespace {

struct ScaleOptions {
    std::string mark;
    std::string set;
    std::string subject;
    std::string raw;
    std::string total;
    std::string uniform;
    std::string uniform_total;
};

BoundarySet set_on_file(Store& store, const ScaleOptions& options) {
    std::vector<BoundarySet> found;
    for (BoundarySetOnFile& on_file : BoundarySets::all(store))
        if (on_file.set.award.empty() && on_file.set.name == options.set &&
            (options.subject.empty() || on_file.set.subject == options.subject))
            found.push_back(std::move(on_file.set));
    if (found.empty())
        throw Error("no boundary set " + set_title({options.set, options.subject, Marks(), {}}) +
                    " on file; 'inkturn boundaries list' shows those that are");
    if (found.size() > 1)
        throw Error("there are " + std::to_string(found.size()) + " boundary sets '" + options.set +
                    "', one per subject: choose one with --subject");
    return std::move(found.front());
}

BoundarySet set_typed(const ScaleOptions& options) {
    BoundarySet set{"--raw", "", parse_set_total(options.total, "--total"),
                    parse_boundaries(options.raw, "--raw")};
    check_boundary_set(set);
    set.name.clear();
    return set;
}

BoundarySet set_of(const Context& context, const ScaleOptions& options) {
    const bool on_file = !options.set.empty() && (options.raw + options.total).empty();
    const bool typed =
        (options.set + options.subject).empty() && !options.raw.empty() && !options.total.empty();
    if (!on_file && !typed)
        throw UsageError("give either --set, or --raw and --total");
    if (typed)
        return set_typed(options);
    Store store = context.store_to_read();
    return set_on_file(store, options);
}

void print(const Context& context, const BoundarySet& set, const UniformScale& scale, ScalePoint mark) {
    context.out << context.heading("Raw mark " + std::to_string(mark.raw.count()) + " of " +
                                   std::to_string(set.total.count()) + " -> uniform mark " +
                                   std::to_string(mark.uniform.count()))
                << "\n\n";
    Table table({{"grade"}, {"raw", Table::Align::right}, {"uniform", Table::Align::right}});
    for (auto point = scale.rbegin(); point != scale.rend(); ++point) {
        std::string grade;
        for (const GradeBoundary& boundary : set.grades)
            if (boundary.mark == point->raw)
                grade = boundary.grade;
        table.add_row({grade, std::to_string(point->raw.count()), std::to_string(point->uniform.count())});
    }
    context.out << table << "\nLinear between these, rounded once.\n";
}

void run(const Context& context, const ScaleOptions& options) {
    const BoundarySet set = set_of(context, options);
    std::optional<Marks> uniform_total;
    if (!options.uniform_total.empty())
        uniform_total = parse_set_total(options.uniform_total, "--uniform-total");
    const UniformScale scale = uniform_scale(set, uniform_marks(set, options.uniform), uniform_total);
    const Marks raw(parse_whole_number(options.mark, 0, set.total.count(), "mark"));
    const ScalePoint mark{raw, scaled(scale, raw)};
    context.answer([&] { return json_of_scaled(set, mark, uniform_total); },
                   [&] { print(context, set, scale, mark); });
}

} // namespace

void add_scale(Command& line) {
    auto options = std::make_shared<ScaleOptions>();
    Command scale = line.command("scale", "Convert a raw mark to a uniform mark");
    scale.argument("MARK", options->mark, "The raw mark").required();
    scale.option("--set", options->set, "NAME", "A boundary set on file");
    scale.option("--subject", options->subject, "S", "The set's subject, if several sets share the name");
    scale.option("--raw", options->raw, "A=61,B=52", "Instead of a set: the grades' raw marks");
    scale.option("--total", options->total, "N", "With --raw: what they are out of");
    scale.option("--uniform", options->uniform, "A=80,B=70", "The grades' uniform marks").required();
    scale.option("--uniform-total", options->uniform_total, "N",
                 "The uniform maximum; without it, marks above the top grade can't be scaled");
    scale.json();
    scale.closing("Example:\n  inkturn scale 57 --raw A=61,B=52,C=43 --total 80 --uniform A=80,B=70,C=60");
    scale.runs(options, run);
}

} // namespace inkturn
