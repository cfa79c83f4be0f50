#include "exchange/document/world.hpp"
#include "inkturn/store/change.hpp"

#include <algorithm>
#include <cstdint>

namespace inkturn::test {

World Random::world() {
    World world;
    for (int i = 0; i < 4; ++i)
        world.papers.push_back(paper(i));
    for (const std::string code : {"K01", "me", "Zo\xC3\xAB", "\xE6\xBC\xA2\xE5\xAD\x97 2", "\"\\/"}) {
        for (const auto& paper : world.papers)
            for (int again = below(3); again > 0; --again)
                world.sittings.push_back(sitting(code, paper, again));
        for (const auto& paper : world.papers)
            if (coin())
                world.begun.push_back(sitting(code, paper, 0));
        if (!world.begun.empty() && world.begun.back().candidate == code)
            world.begun.back().may_run = true;
        if (coin())
            world.availabilities[code] = availability();
        if (coin())
            world.classes["12\xC3\xA9 b"].push_back(code);
        if (coin())
            world.classes["year 13"].push_back(code);
    }
    world.classes["empty"];
    world.exams = {{"Paper 1", today + Days{below(300)}, "pure"},
                   {"Paper 1", today - Days{below(300)}, ""},
                   {"Paper 2 \xE2\x88\xAB", today + Days{below(300)}, "pure"},
                   {"Paper 1", today + Days{below(300)}, "pure", coin(), "year 13"},
                   {"Paper 1", today + Days{below(300)}, "pure", false, "empty"}};
    world.class_times["year 13"] = class_times();
    if (coin())
        world.class_times["empty"] = class_times();
    world.boundaries = {
        {"June 2025", "pure", Marks(75), {{"A*", Marks(60 + below(10))}, {"E", Marks(below(60))}}},
        {"June 2025", "", Marks(100 + below(200)), {{"pass \xE2\x88\xAB", Marks(below(90))}}},
        {"June 2024", "pure", Marks(75), {{"A", Marks(50)}, {"B", Marks(40)}, {"C", Marks(0)}}}};
    add_facts(world);
    add_plan(world);
    return world;
}

void Random::put(const World& world, bool all, Store& store) {
    const auto taken = [&] { return all || coin(); };
    std::vector<KnownSitting> sittings = world.sittings;
    shuffle(sittings);
    std::vector<Exam> exams = world.exams;
    shuffle(exams);
    change(store, [&](Store::Change& open) {
        for (const auto& paper : world.papers)
            if (taken())
                open.add_paper(*paper);
        for (const KnownSitting& sitting : sittings)
            if (taken())
                put(sitting, all, open);
        for (const KnownSitting& begun : world.begun)
            if (taken())
                put_script(begun, all, open);
        for (const auto& [code, availability] : world.availabilities)
            if (taken())
                open.set_times(code, stated(availability));
        for (const auto& [name, members] : world.classes) {
            if (!taken())
                continue;
            open.add_class(name);
            for (const std::string& member : members)
                if (taken())
                    open.add_member(name, member);
        }
        for (const Exam& exam : exams)
            if (taken() && (exam.of_class.empty() || open.store().has_class(exam.of_class)))
                open.add_exam(exam);
        for (const auto& [name, times] : world.class_times)
            if (taken() && open.store().has_class(name))
                open.set_class_times(name, times);
        for (const BoundarySet& set : world.boundaries)
            if (taken())
                BoundarySets(open).add(set);
        put_facts(world, all, open);
        put_plan(world, all, open);
    });
}

StatedTimes Random::class_times() {
    StatedTimes times = stated(availability());
    for (auto& time : times.week)
        if (coin())
            time.reset();
    if (coin())
        times.free_days.reset();
    times.dates[today] = Seconds(0); // or it might be empty
    return times;
}

std::shared_ptr<const Paper> Random::paper(int number) {
    PaperHead head{"paper." + std::to_string(number) + "_x",
                   coin() ? ""
                          : "\xC3\x9C"
                            "bung \xE2\x80\x93 \"1\"",
                   coin() ? "" : "pure", std::nullopt, coin() ? RetryBy::question : RetryBy::part};
    if (coin())
        head.duration = Seconds(60 + below(9000));
    std::vector<Part> parts;
    for (const char* label : {"1", "2a", "7bii", "2b", "A3c", "A3d", "10"}) {
        const Marks max(1 + below(7));
        parts.push_back({label, max, coin() ? "" : "surds \xE2\x88\x9A",
                         coin() ? "" : "M" + std::to_string(max.count()) + "ft A0"});
    }
    if (coin()) {
        parts.back() = parts.front();
        parts.back().label = "10";
        parts.front().choice = parts.back().choice = QuestionChoice{"\xC3\x9C or B", 1};
    }
    return std::make_shared<const Paper>(std::move(head), std::move(parts));
}

PartMarks Random::marks(const Part& part) {
    const Marks max = part.max;
    PartMarks marks;
    if (below(9) == 0)
        return PartMarks::not_set();
    if (below(6) > 0) {
        MarksByPhase by_phase;
        by_phase.in_time = coin() ? max : Marks(below(max.count() + 1));
        by_phase.overtime = Marks(below((max - by_phase.in_time).count() + 1));
        by_phase.corrected = Marks(below((max - by_phase.in_time - by_phase.overtime).count() + 1));
        marks = PartMarks(by_phase, max);
    }
    if (marks.in_time() < max && coin())
        marks.state_reason(static_cast<Reason>(below(5)), max);
    if (marks.attempted() && !part.codes.empty() && coin())
        marks.state_by_code(earned(marks.unaided(), max), max);
    return marks;
}

std::uint32_t Random::earned(Marks unaided, Marks max) {
    std::vector<unsigned> bits;
    for (int bit = 0; bit < max.count(); ++bit)
        bits.push_back(static_cast<unsigned>(bit));
    shuffle(bits);
    std::uint32_t by_code = 0;
    for (int i = 0; i < unaided.count(); ++i)
        by_code |= 1U << bits[static_cast<std::size_t>(i)];
    return by_code;
}

std::vector<ClockEvent> Random::clock(Day day, std::size_t parts) {
    Moment at = day + Seconds(below(80000));
    const auto any_part = [&] { return static_cast<std::size_t>(below(static_cast<int>(parts))); };
    std::vector<ClockEvent> events{{ClockEventKind::start, at, any_part()}};
    for (int more = below(6); more > 0; --more) {
        at += Seconds(below(900));
        if (coin()) {
            events.push_back({ClockEventKind::go, at, any_part()});
            continue;
        }
        events.push_back({ClockEventKind::rest, at});
        events.push_back({ClockEventKind::work, at += Seconds(below(900))});
    }
    events.push_back({ClockEventKind::hand_in, at + Seconds(below(900))});
    return events;
}

namespace {

/// On a third of the parts.
Notes notes_on(const Paper& paper, const std::vector<std::size_t>& positions, int turn) {
    Notes some;
    for (const std::size_t position : positions)
        if ((position + static_cast<std::size_t>(turn)) % 3 == 0)
            some[paper.part(position).label] = "turn " + std::to_string(turn);
    return some;
}

} // namespace

KnownSitting Random::sitting(const std::string& code, const std::shared_ptr<const Paper>& paper, int again) {
    KnownSitting known{code, paper, {today - Days{400 * again - (again > 0 ? below(100) : 0)}, {}, {}}, {}};
    known.at_desk = coin();
    known.sitting.extra_time = ExtraTime(coin() ? 0 : below(101));
    for (const Part& part : paper->parts())
        known.sitting.parts.push_back(marks(part));
    known.sitting.notes = notes_on(*paper, all_positions(*paper), 0);
    count_chosen(*paper, known.sitting.parts);
    if (again == 0 || known.at_desk || coin())
        known.sitting.clock = clock(known.sitting.day, paper->parts().size());
    if (again == 0)
        return known;
    for (const Question& question : paper->questions())
        reattempt(question, known);
    return known;
}

void Random::reattempt(const Question& question, KnownSitting& known) {
    std::vector<Reattempt> earlier;
    for (int turns = below(4); turns >= 0; --turns) {
        const auto open = turn_to_follow(*known.paper, question, known.sitting, earlier);
        if (!open)
            break;
        if (coin())
            known.days[{question.label, open->turn}] = today + Days{below(20)};
        Reattempt next{question.label, open->turn, open->dropped_on + Days{below(30)}, {}};
        for (const std::size_t part : question.parts)
            next.parts.push_back(marks(known.paper->parts()[part]));
        next.notes = notes_on(*known.paper, question.parts, next.turn);
        if (known.at_desk || coin())
            next.clock = clock(next.day, question.parts.size());
        if (turns > 0)
            earlier.push_back(std::move(next));
        else if (known.at_desk && coin())
            known.begun.emplace(question.label, std::move(next));
    }
    known.reattempts.insert(known.reattempts.end(), earlier.begin(), earlier.end());
}

void Random::put(const KnownSitting& known, bool all, Store::Change& open) {
    if (!open.store().find_paper(known.paper->id()))
        open.add_paper(*known.paper);
    if (!all && known.at_desk && below(4) == 0) {
        put_script(known, all, open);
        return;
    }
    const auto perhaps_without_some = [&](auto attempt) {
        if (all || known.at_desk)
            return attempt;
        if (coin())
            attempt.clock.clear();
        else
            attempt.notes.clear();
        return attempt;
    };
    const SittingId id = open.add_sitting(known.candidate, *known.paper, perhaps_without_some(known.sitting));
    for (const Question& question : known.paper->questions()) {
        const int most = all ? 9 : below(4);
        int turns = 0;
        for (const Reattempt& reattempt : known.reattempts) {
            if (reattempt.question != question.label || reattempt.turn > most)
                continue;
            open.add_reattempt(id, perhaps_without_some(reattempt));
            turns = reattempt.turn;
        }
        put_next_script(known, id, question, turns + 1, all, open);
        const auto day = known.days.find({question.label, turns + 1});
        if (day != known.days.end() && (all || coin()))
            open.keep_day({id, question.label, day->second});
    }
}

void Random::put_next_script(const KnownSitting& known, SittingId id, const Question& question, int turn,
                             bool all, Store::Change& open) {
    const auto begun = known.begun.find(question.label);
    const auto next =
        std::find_if(known.reattempts.begin(), known.reattempts.end(), [&](const Reattempt& other) {
            return other.question == question.label && other.turn == turn;
        });
    const Reattempt* attempt = nullptr;
    if (next != known.reattempts.end())
        attempt = &*next;
    else if (begun != known.begun.end() && begun->second.turn == turn)
        attempt = &begun->second;
    if (!attempt || !known.at_desk || (!all && coin()))
        return;
    Script script = blank_script(known.candidate, known.paper, attempt->day, known.sitting.extra_time);
    script.id = script_id(RetryId{id, question.label, turn});
    script.positions = question.parts;
    bring_on(script, attempt->clock, attempt->parts, all, false);
    script.notes = attempt->notes;
    Desk(open).add(script);
}

void Random::put_script(const KnownSitting& known, bool all, Store::Change& open) {
    if (!open.store().find_paper(known.paper->id()))
        open.add_paper(*known.paper);
    Script script = blank_script(known.candidate, known.paper, known.sitting.day, known.sitting.extra_time);
    bring_on(script, known.sitting.clock, known.sitting.parts, all, known.may_run);
    script.notes = known.sitting.notes;
    Desk(open).add(script);
}

void Random::bring_on(Script& script, const std::vector<ClockEvent>& clock,
                      const std::vector<PartMarks>& marks, bool all, bool may_run) {
    script.events = clock;
    script.marks.assign(marks.size(), std::nullopt);
    if (may_run && (all || coin())) {
        const int kept = all ? 1 : 1 + below(static_cast<int>(clock.size()));
        script.events.resize(static_cast<std::size_t>(kept));
        return;
    }
    const int most = static_cast<int>(marks.size()) - 1;
    const int marked = all ? most : below(most + 1);
    std::copy_n(marks.begin(), marked, script.marks.begin());
}

void Random::add_facts(World& world) {
    for (const std::string subject : {"", "pure", "\xC3\xBC"})
        for (const std::string prompt : {"a^(0)", "\"\\/ \xE2\x88\xAB", "x"})
            world.facts.push_back({FactId{}, prompt, "a " + std::to_string(below(9)),
                                   coin() ? "" : "surds \xE2\x88\x9A", subject});
    for (const std::string code : {"K01", "me", "K99"})
        for (int i = below(4); i > 0; --i)
            world.sheets.push_back(sheet(code, today - Days{10 * i}));
}

KnownSheet Random::sheet(const std::string& code, Day day) {
    std::vector<std::size_t> facts{0, 1, 2, 3, 4, 5, 6, 7, 8};
    shuffle(facts);
    facts.resize(1 + static_cast<std::size_t>(below(9)));
    KnownSheet known{code, day, {}, {}};
    std::vector<int> missed_rows;
    int row = 0;
    for (const std::size_t fact : facts) {
        known.rows[row += 1 + below(2)] = fact;
        if (coin())
            missed_rows.push_back(row);
    }
    if (coin())
        known.log = Sheet::Log{day + Days{below(11)}, missed_rows};
    return known;
}

void Random::put_facts(const World& world, bool all, Store::Change& open) {
    FactsOnFile facts(open);
    std::vector<std::optional<FactId>> ids(world.facts.size());
    const auto put = [&](std::size_t i) {
        Fact fact = world.facts[i];
        if (!all && coin())
            fact.topic.clear();
        if (!ids[i])
            ids[i] = facts.add(fact);
    };
    for (std::size_t i = 0; i < ids.size(); ++i)
        if (all || coin())
            put(i);
    std::vector<KnownSheet> sheets = world.sheets;
    shuffle(sheets);
    for (const KnownSheet& known : sheets) {
        if (!all && coin())
            continue;
        Sheet sheet{SheetId{}, known.day, {}, all || coin() ? known.log : std::nullopt};
        for (const auto& [row, fact] : known.rows) {
            put(fact);
            sheet.rows.push_back({row, *ids[fact]});
        }
        facts.add_sheet(known.candidate, sheet);
    }
}

void Random::add_plan(World& world) {
    for (const std::string code : {"K01", "me", "K98"}) {
        for (const std::string subject : {"", "pure", "\xC3\xBC"})
            for (const std::string topic : {"surds \xE2\x88\x9A", "\"\\/"})
                if (coin())
                    world.relearned.push_back({code, {subject, topic, today - Days{below(30)}, coin()}});
        if (coin())
            world.wishes[code] = wishes();
    }
}

PlanWishes Random::wishes() {
    PlanWishes wishes;
    for (const std::string subject : {"", "pure", "\xC3\xBC"})
        if (coin())
            wishes.papers[subject] = {below(PlanWishes::max_papers + 1), today - Days{below(60)}};
    if (wishes.papers.empty() || coin())
        wishes.marking_percent = below(50);
    return wishes;
}

void Random::put_plan(const World& world, bool all, Store::Change& open) {
    PlanOnFile plan(open);
    std::vector<std::pair<std::string, Relearned>> relearned = world.relearned;
    shuffle(relearned);
    for (const auto& [code, topic] : relearned)
        if (all || coin())
            plan.add_relearned(code, topic);
    for (const auto& [code, wishes] : world.wishes)
        if (all || coin())
            plan.set_wishes(code, wishes);
}

Availability Random::availability() {
    Availability availability;
    for (Seconds& available : availability.week)
        available = Seconds(below(86401));
    for (int i = below(4); i > 0; --i)
        availability.dates[today + Days{below(60)}] = Seconds(below(86401));
    if (coin())
        availability.free_days = Days(below(Availability::max_free_days.count() + 1));
    return availability;
}

TwoStores::TwoStores(unsigned seed, bool all) {
    Random random(seed);
    const World world = random.world();
    random.put(world, all, one);
    random.put(world, all, other);
}

} // namespace inkturn::test
