#include "exchange/class/class_import.hpp"

#include "inkturn/store/plan.hpp"

#include "inkturn/base/error.hpp"
#include "inkturn/store/change.hpp"

#include <algorithm>
#include <unordered_set>

namespace inkturn {
namespace {

/// The sittings of the file by candidate, each candidate's in the order of the file.
std::vector<std::vector<ClassSitting*>> by_candidate(ClassFile& csv) {
    std::vector<std::vector<ClassSitting*>> groups(csv.candidates.size());
    for (ClassSitting& sitting : csv.sittings)
        groups[sitting.candidate].push_back(&sitting);
    return groups;
}

SittingRecord* find_same(Candidate& candidate, const Paper& paper, Day day) {
    for (SittingRecord& record : candidate.sittings)
        if (record.sitting.day == day && record.paper->id() == paper.id())
            return &record;
    return nullptr;
}

/// A class's file doesn't say which codes were earned, so those on file stay.
bool are_same(const std::vector<PartMarks>& on_file, const std::vector<PartMarks>& from_file) {
    return std::equal(on_file.begin(), on_file.end(), from_file.begin(), from_file.end(),
                      [](PartMarks known, const PartMarks& said) {
                          known.drop_by_code();
                          return known == said;
                      });
}

void sort_by_day(Candidate& candidate) {
    std::sort(candidate.sittings.begin(), candidate.sittings.end(),
              [](const SittingRecord& a, const SittingRecord& b) {
                  return a.sitting.day != b.sitting.day ? a.sitting.day < b.sitting.day : a.id < b.id;
              });
}

bool makes_retry(const Candidate& candidate, const Paper& paper, const Question& question,
                 const Sitting& sitting) {
    return candidate.wishes.retries.makes_retry(missed_in(paper, question, sitting));
}

/// Adds one sitting of the file to the store and the candidate, unless it is already there.
class SittingImport {
  public:
    SittingImport(Store::Change& change, const ClassImportOptions& options, ClassImport& import)
        : change_(change), options_(options), import_(import) {}

    void take(Candidate& candidate, const std::shared_ptr<const Paper>& paper, ClassSitting& from_file) {
        SittingRecord* on_file = find_same(candidate, *paper, from_file.day);
        if (!on_file)
            add(candidate, paper, from_file);
        else if (are_same(on_file->sitting.parts, from_file.parts))
            ++import_.sittings_unchanged;
        else
            replace(candidate, *on_file, from_file);
    }

  private:
    void add(Candidate& candidate, const std::shared_ptr<const Paper>& paper, ClassSitting& from_file) {
        SittingRecord record;
        record.paper = paper;
        record.sitting = {from_file.day, candidate.extra_time.value_or(ExtraTime()),
                          std::move(from_file.parts)};
        try {
            record.id = change_.add_sitting(candidate.code, *paper, record.sitting);
        } catch (const StoreError&) {
            throw;
        } catch (const Error& error) {
            import_.problems.add(from_file.line, error.within("candidate " + candidate.code + ": "));
            return;
        }
        for (const Question& question : paper->questions())
            import_.retries_added += makes_retry(candidate, *paper, question, record.sitting);
        candidate.sittings.push_back(std::move(record));
        ++import_.sittings_added;
    }

    void replace(const Candidate& candidate, SittingRecord& on_file, ClassSitting& from_file) {
        if (!options_.replace) {
            import_.problems.add(from_file.line, 0,
                                 "candidate " + candidate.code + " has a different sitting of " +
                                     on_file.paper->id() + " on " + iso(from_file.day) +
                                     " on file; use --replace to put this one in its place");
            return;
        }
        const Sitting sitting{from_file.day, on_file.sitting.extra_time, std::move(from_file.parts),
                              on_file.sitting.clock, on_file.sitting.notes};
        try {
            check_can_replace(*on_file.paper, sitting, on_file, options_.file.today);
        } catch (const Error& error) {
            import_.problems.add(from_file.line, error);
            return;
        }
        for (const Question& question : on_file.paper->questions())
            import_.retries_added += makes_retry(candidate, *on_file.paper, question, sitting) &&
                                     !makes_retry(candidate, *on_file.paper, question, on_file.sitting);
        change_.change_sitting(on_file.id, sitting);
        on_file.sitting = sitting;
        ++import_.sittings_replaced;
    }

    Store::Change& change_;
    const ClassImportOptions& options_;
    ClassImport& import_;
};

void put_in_class(Store::Change& change, const std::string& name, const std::vector<std::string>& candidates,
                  ClassImport& import) {
    if (!change.store().has_class(name)) {
        change.add_class(name);
        import.class_added = true;
    }
    for (const std::string& candidate : candidates)
        import.members_added += change.add_member(name, candidate);
}

/// Throws Error where the paper named is on file and has not the parts that were set.
void check_only(const Store& store, const ClassFileOptions& options) {
    if (options.only.empty() || !options.paper)
        return;
    try {
        if (const auto paper = store.find_paper(*options.paper))
            parts_set(*paper, options.only);
    } catch (const StoreError&) {
        throw;
    } catch (const Error& error) {
        throw error.within("--only ");
    }
}

} // namespace

ClassImport import_class(Store::Change& change, Rows& rows, const ClassImportOptions& options) {
    const Store& store = change.store();
    check_only(store, options.file);
    ClassFile csv =
        read_class(rows, options.file, [&](const std::string& id) { return store.find_paper(id); });
    ClassImport import;
    import.rows = csv.rows;
    import.absent = csv.absent;
    import.problems = std::move(csv.problems);
    if (!import.problems.empty())
        return import;

    for (const auto& [paper, on_file] : csv.papers) {
        if (on_file)
            continue;
        change.add_paper(*paper);
        import.papers_added.push_back(paper->id());
    }
    const std::vector<std::string> codes = store.candidates();
    const std::unordered_set<std::string> known(codes.begin(), codes.end());
    const Candidate nobody = store.candidate("");
    SittingImport sittings(change, options, import);
    const auto groups = by_candidate(csv);
    for (std::size_t i = 0; i < groups.size(); ++i) {
        Candidate candidate = nobody;
        candidate.code = csv.candidates[i];
        if (known.count(candidate.code) > 0)
            candidate = store.candidate(candidate.code);
        for (ClassSitting* sitting : groups[i])
            sittings.take(candidate, csv.papers[sitting->paper].paper, *sitting);
        sort_by_day(candidate);
        change.keep_days(open_retries(candidate, options.file.today));
        if (!candidate.planned_for)
            PlanOnFile(change).set_planned_for(candidate.code, options.file.today);
    }
    if (options.of_class)
        put_in_class(change, *options.of_class, csv.candidates, import);
    return import;
}

} // namespace inkturn
