#include "exchange/document/drawn_ids.hpp"

#include "exchange/document/difference.hpp"
#include "inkturn/practice/free_id.hpp"
#include "inkturn/practice/question_set.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/printed_sets.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace inkturn {
namespace {

using NewIds = std::map<std::string, std::string>; ///< of papers, by those in the document

/// Drawn papers of a store or a document.
class Drawn {
  public:
    Drawn(const std::vector<std::shared_ptr<const Paper>>& papers, std::vector<Copies> copies,
          const std::vector<PrintedSet>& printed)
        : copies_(std::move(copies)), ids_(drawn_papers(papers, copies_)) {
        for (const Copies& same : copies_)
            for (const QuestionName& name : same)
                copies_of_[name] = &same;
        for (const PrintedSet& set : printed)
            printed_[set.paper] = &set;
    }

    bool holds(const std::string& id) const { return ids_.count(id) > 0; }

    /// All copies of a question; null where it has none.
    const Copies* copies_of(const QuestionName& name) const {
        const auto found = copies_of_.find(name);
        return found == copies_of_.end() ? nullptr : found->second;
    }

    const PrintedSet* printed(const std::string& id) const {
        const auto found = printed_.find(id);
        return found == printed_.end() ? nullptr : found->second;
    }

  private:
    std::vector<Copies> copies_;
    std::set<std::string> ids_;
    std::map<QuestionName, const Copies*> copies_of_;
    std::map<std::string, const PrintedSet*> printed_; ///< by the paper's id
};

bool is_among(const QuestionName& name, const Copies& same) {
    return std::find(same.begin(), same.end(), name) != same.end();
}

class DrawnIds {
  public:
    DrawnIds(const Store& store, const std::optional<std::string>& as, const Document& document)
        : store_(store),
          as_(as),
          document_(document),
          printed_here_(PrintedSets::all(store)),
          here_(store.papers(), DrawnPapers::copies(store), printed_here_),
          in_file_(document.papers, document.copies, document.sets) {
        for (const auto& paper : store.papers())
            taken_.insert(paper->id());
        for (const auto& paper : document.papers)
            taken_.insert(paper->id());
    }

    NewIds settle() {
        std::vector<const Paper*> unsettled;
        for (const auto& paper : document_.papers) {
            const auto on_file = store_.find_paper(paper->id());
            if (!in_file_.holds(paper->id()))
                continue;
            if (on_file && is_same(*paper, *on_file))
                met_.insert(paper->id());
            else
                unsettled.push_back(paper.get());
        }
        for (const Paper* const paper : unsettled)
            settle(*paper);
        return std::move(ids_);
    }

  private:
    void settle(const Paper& paper) {
        std::string id = same_here(paper);
        if (id.empty())
            id = store_.find_paper(paper.id()) ? next_free_id(paper.id(), taken_) : paper.id();
        taken_.insert(id);
        met_.insert(id);
        if (id != paper.id())
            ids_[paper.id()] = id;
    }

    /// The id that the paper has here, where no other of the document is that one; empty where it isn't here.
    std::string same_here(const Paper& paper) const {
        const Copies* const in_file = in_file_.copies_of({paper.id(), paper.questions().front().label});
        const Copies* const here = in_file ? here_.copies_of(in_file->front()) : nullptr;
        if (!here)
            return "";
        for (const QuestionName& copy : *here) {
            if (met_.count(copy.paper) > 0 || copy.question != paper.questions().front().label)
                continue;
            const auto on_file = store_.find_paper(copy.paper);
            if (here_.holds(copy.paper) && is_same(paper, *on_file))
                return copy.paper;
        }
        return "";
    }

    bool is_same(const Paper& in_file, const Paper& on_file) const {
        const Paper whole = completed(on_file, in_file);
        return !difference(whole, completed(in_file, on_file)) && have_same_sources(in_file, on_file) &&
               have_same_readers(in_file.id(), on_file.id());
    }

    /// As far as it is known where the questions come from.
    bool have_same_sources(const Paper& in_file, const Paper& on_file) const {
        return std::all_of(
            in_file.questions().begin(), in_file.questions().end(), [&](const Question& question) {
                const Copies* const there = in_file_.copies_of({in_file.id(), question.label});
                const Copies* const here = here_.copies_of({on_file.id(), question.label});
                return !there || !here || is_among(there->front(), *here) || is_among(here->front(), *there);
            });
    }

    bool have_same_readers(const std::string& in_file, const std::string& on_file) const {
        const PrintedSet* const there = in_file_.printed(in_file);
        const PrintedSet* const here = here_.printed(on_file);
        // One for nobody may be for a candidate who was erased.
        if (!there || !here || there->is_for_nobody() || here->is_for_nobody())
            return true;
        const std::string& candidate = !there->candidate.empty() && as_ ? *as_ : there->candidate;
        return candidate == here->candidate && there->of_class == here->of_class;
    }

    const Store& store_;
    const std::optional<std::string>& as_;
    const Document& document_;
    std::vector<PrintedSet> printed_here_;
    Drawn here_;
    Drawn in_file_;
    std::set<std::string> taken_; ///< ids, here and in the document
    std::set<std::string> met_;   ///< ids here of papers of the document
    NewIds ids_;
};

/// Gives papers of a document new ids, wherever it names them.
class Renaming {
  public:
    Renaming(const NewIds& ids, Document& document) : ids_(ids), document_(document) {}

    void run() {
        rename_papers();
        for (ExportedCandidate& candidate : document_.candidates)
            rename_in(candidate);
        for (Copies& same : document_.copies)
            for (QuestionName& name : same)
                rename(name.paper);
        for (PrintedSet& set : document_.sets)
            rename(set.paper);
        for (ExportedPicture& picture : document_.pictures)
            rename(picture.paper);
        for (ClosedClassFigures& figures : document_.closed_classes)
            rename(figures.paper);
        rename_words();
    }

  private:
    void rename(std::string& id) const {
        if (const auto found = ids_.find(id); found != ids_.end())
            id = found->second;
    }

    void rename_papers() {
        for (auto& paper : document_.papers) {
            PaperHead head = paper->head();
            rename(head.id);
            if (head.id == paper->id())
                continue;
            auto renamed = std::make_shared<const Paper>(std::move(head), paper->parts());
            papers_[paper.get()] = renamed;
            paper = std::move(renamed);
        }
        std::sort(document_.papers.begin(), document_.papers.end(),
                  [](const auto& a, const auto& b) { return a->id() < b->id(); });
    }

    void rename(std::shared_ptr<const Paper>& paper) const {
        if (const auto found = papers_.find(paper.get()); found != papers_.end())
            paper = found->second;
    }

    void rename_in(ExportedCandidate& exported) const {
        for (SittingRecord& record : exported.candidate.sittings)
            rename(record.paper);
        for (Script& script : exported.scripts)
            rename(script.paper);
        for (SteeredWork& work : exported.candidate.steered_work)
            if (work.what == WorkPurpose::sit)
                rename(work.name);
        for (Absence& absence : exported.absences)
            rename(absence.paper);
    }

    void rename_words() {
        std::map<std::string, PartWords> words;
        for (auto& [id, of_paper] : document_.words) {
            std::string renamed = id;
            rename(renamed);
            words[renamed] = std::move(of_paper);
        }
        document_.words = std::move(words);
        std::set<std::string> kept_unseen;
        for (std::string id : document_.kept_unseen) {
            rename(id);
            kept_unseen.insert(std::move(id));
        }
        document_.kept_unseen = std::move(kept_unseen);
    }

    const NewIds& ids_;
    Document& document_;
    std::map<const Paper*, std::shared_ptr<const Paper>> papers_; ///< by those that had their old ids
};

} // namespace

std::vector<DrawnId> settle_drawn_ids(const Store& store, const std::optional<std::string>& as,
                                      Document& document) {
    if (document.copies.empty())
        return {};
    const NewIds ids = DrawnIds(store, as, document).settle();
    Renaming(ids, document).run();
    std::vector<DrawnId> settled;
    for (const auto& [in_file, here] : ids)
        settled.push_back({in_file, here});
    return settled;
}

} // namespace inkturn
