#include "cli/student/sets_on_file.hpp"

#include "inkturn/practice/question_set.hpp"
#include "inkturn/store/drawn_papers.hpp"

namespace inkturn {

SetsOnFile::SetsOnFile(const Store& store) : store_(store), copies_(DrawnPapers::copies(store)) {}

QuestionOfSet SetsOnFile::question_of_set(const Paper& paper, const Question& question,
                                          PicturesOnFile& pictures) const {
    QuestionOfSet shown{source_of(copies_, {paper.id(), question.label}), "", {}, {}};
    const auto source = store_.find_paper(shown.source.paper);
    const auto position = source ? source->find_question(shown.source.question) : std::nullopt;
    shown.title = source ? source->title() : "";
    const auto pictures_of = [&](PictureContent content) {
        std::vector<SharedPicture> own = pictures.of_parts_too(paper, question, content);
        return own.empty() && position ? pictures.of_parts_too(*source, source->question(*position), content)
                                       : own;
    };
    shown.question = pictures_of(PictureContent::question);
    shown.scheme = pictures_of(PictureContent::scheme);
    return shown;
}

QuestionSet SetsOnFile::set_of(const std::shared_ptr<const Paper>& paper, PicturesOnFile& pictures) const {
    QuestionSet set;
    set.paper = paper;
    for (const Question& question : paper->questions())
        set.questions.push_back(question_of_set(*paper, question, pictures));
    return set;
}

std::vector<QuestionSet> SetsOnFile::within(const Timetable& timetable, DaySpan span, ExtraTime extra,
                                            PicturesOnFile& pictures) const {
    std::vector<QuestionSet> sets;
    for (const WorkItem& item : timetable.items) {
        const auto* const to_sit = std::get_if<PaperToSit>(&item.work);
        if (!to_sit || !to_sit->is_drawn || !item.day || !span.contains(*item.day))
            continue;
        sets.push_back(set_of(to_sit->paper, pictures));
        sets.back().extra = extra;
    }
    return sets;
}

} // namespace inkturn
