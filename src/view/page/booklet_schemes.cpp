#include "view/page/booklet_schemes.hpp"

#include "view/page/html.hpp"
#include "view/text/history.hpp"
#include "view/text/text.hpp"

#include <algorithm>

namespace inkturn {

std::string question_of_paper(const Retry& retry) {
    return "question " + retry.paper_question().label + " of " + retry.paper->id();
}

std::string question_heading(const Retry& retry) {
    return "Q" + question_of_paper(retry).substr(1);
}

std::string pictures_html(const std::vector<SharedPicture>& shown, const std::string& what,
                          PagePictures& pictures) {
    std::string html;
    for (std::size_t i = 0; i < shown.size(); ++i)
        html += pictures.shown(shown[i], what + ", picture " + std::to_string(i + 1) + " of " +
                                             std::to_string(shown.size()));
    return html;
}

namespace {

/// A question's mark scheme, and the retries it is for.
struct Scheme {
    const BookletItem* item;
    std::vector<std::string> retries;
    std::string before; ///< what came of them so far, paragraphs
};

/// `K01 12q1, K02 13q1`; after the first eight how many more.
std::string named_retries(const Scheme& scheme) {
    constexpr std::size_t max_named = 8;
    const std::size_t named = std::min(scheme.retries.size(), max_named);
    std::string text;
    for (std::size_t i = 0; i < named; ++i)
        text += (i == 0 ? "" : ", ") + scheme.retries[i];
    const std::size_t others = scheme.retries.size() - named;
    return others == 0 ? text : text + " and " + std::to_string(others) + " more";
}

bool are_same(const SharedPicture& a, const SharedPicture& b) {
    return a == b || (a->kind == b->kind && a->bytes == b->bytes);
}

bool have_same_scheme(const BookletItem& a, const BookletItem& b) {
    return a.retry.paper->id() == b.retry.paper->id() &&
           a.retry.paper_question().label == b.retry.paper_question().label &&
           std::equal(a.scheme.begin(), a.scheme.end(), b.scheme.begin(), b.scheme.end(), are_same);
}

/// `7a 2+1 of 4, slip`.
std::string marks_before(const Part& part, const PartMarks& marks) {
    PartMarks by_ink = marks;
    by_ink.drop_reason();
    by_ink.drop_by_code();
    return part.label + " " + (marks.attempted() ? to_text(by_ink) : "not attempted") + " of " +
           std::to_string(part.max.count()) +
           (marks.reason() ? ", " + std::string(name(*marks.reason())) : std::string());
}

/// What a candidate earned and noted in each attempt so far, a paragraph an attempt.
std::string attempts_before(const BookletItem& item, const std::string& retry) {
    const Question& question = item.retry.paper_question();
    std::string html;
    for (const QuestionAttempt& attempt : item.attempts) {
        std::string line = retry + ", " + attempt_name(attempt) + " (" + day_text(attempt.day) + "): ";
        for (std::size_t place = 0; place < attempt.parts.size(); ++place)
            line += (place == 0 ? "" : "; ") +
                    marks_before(item.retry.paper->part(question.parts[place]), attempt.parts[place]);
        for (const auto& [label, note] : attempt.notes)
            line.append("; noted on ").append(label).append(": ").append(note);
        html += paragraph(line + ".");
    }
    return html;
}

/// Each once, in the order of the booklet; what came of retries only where one candidate marks them all.
std::vector<Scheme> schemes_of(const std::vector<const BookletOfCandidate*>& parts) {
    std::vector<Scheme> schemes;
    const auto before = [&](const BookletItem& item, const std::string& retry) {
        return parts.size() == 1 ? attempts_before(item, retry) : std::string();
    };
    for (const BookletOfCandidate* const part : parts)
        for (const BookletItem& item : part->items) {
            const std::string retry = part->candidate + " " + to_text(item.retry.id);
            const auto known = std::find_if(schemes.begin(), schemes.end(), [&](const Scheme& scheme) {
                return have_same_scheme(*scheme.item, item);
            });
            if (known == schemes.end())
                schemes.push_back({&item, {retry}, before(item, retry)});
            else {
                known->retries.push_back(retry);
                known->before += before(item, retry);
            }
        }
    return schemes;
}

} // namespace

std::string booklet_schemes(const std::vector<const BookletOfCandidate*>& parts, PagePictures& pictures) {
    std::string html = "<section class=\"schemes\" aria-labelledby=\"schemes\">\n"
                       "<h2 id=\"schemes\">Mark schemes</h2>\n";
    html += paragraph("For marking: don't look any further until you have finished the questions.");
    std::string missing;
    std::string before;
    for (const Scheme& scheme : schemes_of(parts)) {
        const std::string name = question_of_paper(scheme.item->retry);
        if (scheme.item->scheme.empty()) {
            missing += (missing.empty() ? "" : ", ") + name + " (" + named_retries(scheme) + ")";
            before += scheme.before;
            continue;
        }
        html +=
            "<article class=\"scheme\">\n<h3>" + escaped(question_heading(scheme.item->retry)) + "</h3>\n";
        html += paragraph(counted_marks(scheme.item->retry.paper_question().marks) + "; for " +
                          named_retries(scheme));
        html += pictures_html(scheme.item->scheme, "Mark scheme for " + name, pictures) + scheme.before +
                "</article>\n";
    }
    if (!missing.empty())
        html += paragraph("No mark scheme on file for " + missing + ": use the paper's.") + before;
    return html + "</section>\n";
}

} // namespace inkturn
