#include "cli/context.hpp"
#include "cli/csv_options.hpp"
#include "cli/data/paper.hpp"
#include "cli/named_input.hpp"
#include "cli/output_file.hpp"
#include "cli/subjects.hpp"
#include "cli/terminal.hpp"
#include "cli/topic_spelling.hpp"

#include "exchange/csv/paper.hpp"
#include "exchange/csv/write.hpp"
#include "exchange/json/paper_read.hpp"
#include "exchange/pdf/pages.hpp"
#include "exchange/pdf/program.hpp"
#include "exchange/pdf/questions.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/paper/codes.hpp"
#include "inkturn/paper/label.hpp"
#include "inkturn/printed/corrected_paper.hpp"
#include "inkturn/printed/paper.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/question_bank.hpp"
#include "view/text/table.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <iostream>
#include <memory>
#include <set>
#include <sstream>

namespace inkturn {
namespace {

struct PaperReadOptions {
    std::string file;
    std::string scheme;
    PaperHeadTexts head;
    std::string corrected; ///< the file with the parts
    CsvOptionTexts table;  ///< how it is read
    OutputOptions csv;
    bool yes = false;
    bool with_doubts = false;
};

/// A PDF that has been read.
struct PdfRead {
    std::string name; ///< as it was typed, for messages
    std::shared_ptr<const NamedInput> input;
    PdfText text;

    const std::vector<PrintedPage>& pages() const { return text.pages; }
};

struct PaperReading {
    PdfRead paper_pdf;
    PdfRead scheme_pdf; ///< has no pages if none was given
    PrintedPaper paper;
    PrintedScheme scheme;

    bool has_scheme() const { return !scheme_pdf.pages().empty(); }
    bool has_codes() const {
        return has_scheme() || std::any_of(scheme.parts.begin(), scheme.parts.end(),
                                           [](const PrintedSchemePart& part) { return !part.codes.empty(); });
    }
};

struct Pictures {
    std::vector<QuestionPictures> questions;
    std::vector<QuestionPictures> schemes;

    std::size_t count() const {
        std::size_t sum = 0;
        for (const auto* list : {&questions, &schemes})
            for (const QuestionPictures& cut : *list)
                sum += cut.pictures.size();
        return sum;
    }
};

/// Does the work on a document, and adds the file's name to any error.
template <typename Work>
auto with_name(const std::string& file, Work work) {
    try {
        return work();
    } catch (const MissingProgram&) {
        throw;
    } catch (const Error& error) {
        throw error.within(file + ": ");
    }
}

/// Shows the pages of a file as they are worked on.
PageCount shown_pages(const Context& context, const std::string& what) {
    auto line = std::make_shared<ProgressLine>(context.err, what, std::nullopt, context.quiet);
    return [line](std::size_t page, std::size_t pages) { line->show_piece("page", page + 1, pages); };
}

PdfRead read_file(const Context& context, const std::string& file) {
    const auto input = std::make_shared<const NamedInput>(file, context, max_pdf_bytes);
    const std::string name = file == "-" ? "standard input" : file;
    with_name(name, [&] { check_may_be_pdf(input->file()); });
    const InputFile readable(input->file(), context);
    return {name, input, with_name(name, [&] {
                return read_pdf(input->file(), shown_pages(context, "inkturn: reading"));
            })};
}

/// Where words are missing or misread the paper may be sound, but its marks can't be relied on.
void add_doubts_of(PrintedPaper& paper, const PdfText& text) {
    if (text.is_damaged)
        paper.doubts.push_back({std::nullopt, "the PDF is damaged, and words may be missing: use a fresh "
                                              "copy if there is one"});
    if (text.is_scan && (!paper.total || !paper.doubts.empty()))
        paper.doubts.push_back({std::nullopt, "the pages are scans, and marks may be misread: compare each "
                                              "with the paper"});
}

PaperReading read(const Context& context, const PaperReadOptions& options) {
    if (options.file == "-" && options.scheme == "-")
        throw UsageError("standard input is one file: name the other");
    PaperReading reading;
    reading.paper_pdf = read_file(context, options.file);
    reading.paper = recognise_paper(reading.paper_pdf.pages());
    add_doubts_of(reading.paper, reading.paper_pdf.text);
    if (reading.paper.parts.empty() && !options.csv.file.empty())
        reading.paper.parts = reading.paper.guessed;
    if (reading.paper.parts.empty())
        throw Error(options.file +
                    (reading.paper_pdf.text.is_scan ? ": its pages are scans, and in their text" : ":") +
                    " no numbered questions with marks were found, so it may not be an exam "
                    "paper; enter its parts with 'inkturn paper add'");
    if (!options.scheme.empty()) {
        reading.scheme_pdf = read_file(context, options.scheme);
        reading.scheme = recognise_scheme(reading.scheme_pdf.pages(), reading.paper);
    }
    return reading;
}

std::string codes_of(const PrintedScheme& scheme, const std::string& label) {
    for (const PrintedSchemePart& part : scheme.parts)
        if (part.label == label)
            return part.codes;
    return "";
}

/// The scheme's codes of a part, if they add up to its marks.
std::string codes_of(const PrintedScheme& scheme, const std::string& label, Marks max) {
    std::string codes = codes_of(scheme, label);
    return !codes.empty() && marks_of_codes(codes) == max ? codes : "";
}

/// `page 2`, `pages 2, 3`: what a question is cut from; empty if nothing is.
std::string pages_text(const std::vector<PrintedQuestion>& questions, const std::string& label) {
    std::set<std::size_t> pages;
    for (const PrintedQuestion& question : questions)
        if (question.label == label)
            for (const PageStrip& strip : question.strips)
                pages.insert(strip.page + 1);
    std::string text;
    for (const std::size_t page : pages)
        text += (text.empty() ? (pages.size() == 1 ? "page " : "pages ") : ", ") + std::to_string(page);
    return text;
}

Marks marks_read(const PrintedPaper& paper) {
    Marks sum;
    for (const PrintedPart& part : paper.parts)
        sum += part.marks.value_or(Marks(0));
    return sum;
}

void print_table(const Context& context, const PaperReading& reading) {
    std::vector<Table::Column> columns{
        {"part"}, {"marks", Table::Align::right}, {"page", Table::Align::right}};
    if (reading.has_codes())
        columns.push_back({"codes", Table::Align::left_may_be_cut});
    columns.push_back({"question", Table::Align::left_may_be_cut});
    if (reading.has_scheme())
        columns.push_back({"mark scheme", Table::Align::left_may_be_cut});
    Table table(columns);
    std::string last;
    for (const PrintedPart& part : reading.paper.parts) {
        const std::string question(question_of(part.label));
        const bool begins = question != last;
        last = question;
        std::vector<std::string> row{part.label, part.marks ? std::to_string(part.marks->count()) : "?",
                                     part.page ? std::to_string(*part.page + 1) : "-"};
        if (reading.has_codes())
            row.push_back(codes_of(reading.scheme, part.label));
        row.push_back(begins ? pages_text(reading.paper.questions, question) : "");
        if (reading.has_scheme())
            row.push_back(begins ? pages_text(reading.scheme.questions, question) : "");
        table.add_row(std::move(row));
    }
    context.out << table;
}

void print_doubts(std::ostream& out, const std::vector<Doubt>& doubts, const std::string& document) {
    for (const Doubt& doubt : doubts) {
        const std::string where =
            document + (doubt.page ? "page " + std::to_string(*doubt.page + 1) + ": " : "");
        out << "  " << wrapped(where + visible(doubt.message), text_width() - 4, 4) << '\n';
    }
}

bool states_totals(const PrintedPaper& paper) {
    return paper.total ||
           std::any_of(paper.questions.begin(), paper.questions.end(),
                       [](const PrintedQuestion& question) { return question.total.has_value(); });
}

/// Says how the marks compare with the paper's totals. Totals of sections aren't kept, so only marks as read,
/// not corrected ones, were checked against those.
void print_agreement(const Context& context, const PrintedPaper& paper, const std::string& corrected) {
    if (!corrected.empty())
        context.out << "The parts and their marks come from " << visible(corrected) << ".\n";
    if (!paper.doubts.empty())
        context.out << (corrected.empty() ? "In doubt:\n" : "The printed paper disagrees with them:\n");
    else if (!states_totals(paper))
        context.out << "The paper states no total to check the marks against.\n";
    else if (corrected.empty())
        context.out << "The marks agree with every total that the paper states.\n";
    else
        context.out << "They agree with the totals that the paper and its questions state.\n";
    print_doubts(context.out, paper.doubts, "");
}

/// `Any 2 of questions 3, 4, 5 count.`
void print_choices(const Context& context, const PrintedPaper& paper) {
    for (const PrintedChoice& choice : paper.choices) {
        std::string labels;
        for (const std::string& question : choice.questions)
            labels += (labels.empty() ? "" : ", ") + question;
        context.out << wrapped("Any " + std::to_string(choice.count) + " of questions " + labels + " count.",
                               text_width())
                    << '\n';
    }
}

void print(const Context& context, const PaperReading& reading, const std::string& corrected = "") {
    const PrintedPaper& paper = reading.paper;
    context.out << context.heading(visible(reading.paper_pdf.name)) << '\n'
                << wrapped(count_text(reading.paper_pdf.pages().size(), "page") +
                               (reading.paper_pdf.text.is_scan ? " (scans)" : "") + ", " +
                               count_text(paper.questions.size(), "question") + ", " +
                               count_text(paper.parts.size(), "part") + ", " +
                               count_text(static_cast<std::size_t>(marks_read(paper).count()), "mark") +
                               "; " +
                               (paper.duration ? length_text(*paper.duration) + " as stated"
                                               : std::string("no duration stated")),
                           text_width())
                << "\n\n";
    print_table(context, reading);
    context.out << '\n';
    print_choices(context, paper);
    print_agreement(context, paper, corrected);
    if (!reading.scheme.doubts.empty())
        context.out << "In doubt in the mark scheme; no codes are stored for these parts:\n";
    print_doubts(context.out, reading.scheme.doubts, "");
}

void write_csv(const Context& context, const PaperReadOptions& options, const PaperReading& reading) {
    std::ostringstream text;
    CsvWriter csv(text);
    csv.text("part").text("marks").text("topic");
    const bool has_choices = !reading.paper.choices.empty();
    if (reading.has_scheme())
        csv.text("codes");
    if (has_choices)
        csv.text("choice");
    csv.end_row();
    std::size_t without_marks = 0;
    std::size_t doubtful = 0;
    for (const PrintedPart& part : reading.paper.parts) {
        csv.text(part.label);
        const bool is_marked = part.marks && is_doubtful(reading.paper, part);
        if (!part.marks)
            csv.text("");
        else if (is_marked)
            csv.text(std::to_string(part.marks->count()) + "?");
        else
            csv.number(static_cast<std::size_t>(part.marks->count()));
        without_marks += !part.marks;
        doubtful += is_marked;
        csv.text("");
        if (reading.has_scheme())
            csv.text(codes_of(reading.scheme, part.label, part.marks.value_or(Marks(0))));
        if (has_choices) {
            const auto choice = choice_of(reading.paper, question_of(part.label));
            csv.text(choice ? to_text(*choice) : "");
        }
        csv.end_row();
    }
    const std::string left_open =
        (without_marks > 0 ? ", " + count_text(without_marks, "part") + " without marks" : "") +
        (doubtful > 0 ? ", " + count_text(doubtful, "part") + " in doubt, with ? after the marks" : "");
    write_output(context, options.csv, text.str());
    if (options.csv.file == "-") {
        print_doubts(context.err, reading.paper.doubts, "");
        print_doubts(context.err, reading.scheme.doubts, "mark scheme, ");
        return;
    }
    print(context, reading);
    context.out << '\n'
                << wrapped("Wrote " + count_text(reading.paper.parts.size(), "part") + left_open +
                               "; nothing was stored.",
                           text_width())
                << "\nNext: correct it, then run this again with --parts " << shell_word(options.csv.file)
                << " instead of --csv\n";
}

std::vector<Part> corrected_parts(const Context& context, const PaperReadOptions& options) {
    const InputFile file(options.corrected, context);
    ProblemList problems;
    std::vector<Part> parts = read_paper_rows(*options.table.rows_of(file), problems);
    refuse_problems(context, file.name(), problems);
    return parts;
}

/// What was read, with the parts corrected by hand in place of those read.
PaperReading with_parts(PaperReading reading, const std::vector<Part>& parts) {
    reading.paper = corrected(reading.paper, parts);
    reading.scheme = corrected(reading.scheme, parts);
    return reading;
}

std::vector<Part> parts_read(const PaperReading& reading) {
    std::vector<Part> parts;
    for (const PrintedPart& part : reading.paper.parts) {
        if (!part.marks)
            throw Error("part " + part.label +
                        " has no marks, so the paper can't be stored as it was read: use "
                        "--csv FILE, correct the file, then use --parts FILE");
        parts.push_back({part.label, *part.marks, "", codes_of(reading.scheme, part.label, *part.marks)});
        parts.back().choice = choice_of(reading.paper, question_of(part.label));
    }
    return parts;
}

/// The paper made of the corrected parts if there are any, else of those read.
Paper paper_of(const PaperReadOptions& options, const PaperReading& reading,
               const std::vector<Part>& by_hand) {
    PaperHead head = options.head.read();
    if (!head.duration)
        head.duration = reading.paper.duration;
    return Paper(head, options.corrected.empty() ? parts_read(reading) : by_hand);
}

/// Parts corrected by hand are beyond doubt. Doubts about the scheme only cost codes, so they don't count.
bool may_keep(const Context& context, const PaperReadOptions& options, const PaperReading& reading) {
    const bool doubtful = !reading.paper.doubts.empty() && options.corrected.empty();
    if (options.yes && doubtful && !options.with_doubts)
        throw Error("what was read is in doubt, so nothing was stored: use --csv FILE, correct it, then use "
                    "--parts FILE; or use --with-doubts to store it as it is");
    return options.yes || context.confirmed("Store paper " + options.head.id +
                                            (doubtful                       ? ", doubts and all?"
                                             : reading.paper.doubts.empty() ? "?"
                                                                            : " anyway?"));
}

Pictures cut_pictures(const Context& context, const PaperReading& reading) {
    const auto cut = [&](const PdfRead& pdf, const std::vector<PrintedQuestion>& questions) {
        if (!pdf.input)
            return std::vector<QuestionPictures>();
        return with_name(pdf.name, [&] {
            return cut_questions(pdf.input->file(), pdf.pages(), questions,
                                 shown_pages(context, "inkturn: drawing"));
        });
    };
    return {cut(reading.paper_pdf, reading.paper.questions),
            cut(reading.scheme_pdf, reading.scheme.questions)};
}

bool has_question(const Paper& paper, const std::string& label) {
    return std::any_of(paper.parts().begin(), paper.parts().end(), [&](const Part& part) {
        return part.label == label || question_of(part.label) == label;
    });
}

void add_pictures(Store::Change& change, const Paper& paper, const std::vector<QuestionPictures>& cut,
                  PictureContent content) {
    for (const auto& [question, pictures] : cut)
        for (const Picture& picture : pictures)
            change.add_picture(paper, question, content, picture);
}

/// Of the parts that the paper has.
PartWords words_read(const PaperReading& reading, const Paper& paper) {
    PartWords words;
    for (const PrintedPart& part : reading.paper.parts)
        if (!part.words.empty() && paper.find_part(part.label))
            words[part.label] = part.words;
    return words;
}

/// Stores the paper, its words and its pictures, without those of questions that the corrected paper doesn't
/// have.
void keep(const Context& context, const Paper& paper, const PartWords& words, Pictures& pictures) {
    for (auto* list : {&pictures.questions, &pictures.schemes})
        list->erase(
            std::remove_if(list->begin(), list->end(),
                           [&](const QuestionPictures& cut) { return !has_question(paper, cut.question); }),
            list->end());
    Store store = context.store_to_write();
    Store::Change change(store);
    check_component_on_file(change.store(), paper);
    change.add_paper(paper);
    QuestionBank(change).set_added(paper.id(), context.date_today());
    QuestionBank(change).set_words(paper.id(), words);
    add_pictures(change, paper, pictures.questions, PictureContent::question);
    add_pictures(change, paper, pictures.schemes, PictureContent::scheme);
    change.commit();
}

/// The pictures stored. Throws Error if the answer is no.
Pictures kept_pictures(const Context& context, const PaperReadOptions& options, const PaperReading& reading,
                       const std::vector<Part>& by_hand) {
    const Paper paper =
        with_listed_topics(context, context.store_to_read(), paper_of(options, reading, by_hand));
    if (!may_keep(context, options, reading))
        throw Error("nothing was stored");
    Pictures pictures = cut_pictures(context, reading);
    keep(context, paper, words_read(reading, paper), pictures);
    return pictures;
}

void check_is_new(const Context& context, const PaperReadOptions& options) {
    const std::string id = options.head.read().id;
    if (context.store_to_read().find_paper(id))
        throw Error("paper " + id + " is already on file; use another --id, or remove that one first");
}

void run(const Context& context, const PaperReadOptions& options) {
    if (!options.csv.file.empty()) {
        write_csv(context, options, read(context, options));
        return;
    }
    if (options.head.id.empty())
        throw UsageError("use --id ID, or --csv FILE");
    check_is_new(context, options);
    question_new_subject(context, context.store_to_read(), options.head.subject);
    std::vector<Part> by_hand;
    PaperReading reading;
    if (!options.corrected.empty()) {
        by_hand = corrected_parts(context, options);
        reading = with_parts(read(context, options), by_hand);
    } else {
        reading = read(context, options);
    }
    if (!context.json)
        print(context, reading, options.corrected);
    std::optional<Pictures> kept;
    const auto document = [&] {
        return json_of(PaperRead{options.head.id, reading.paper_pdf.pages().size(),
                                 kept ? std::optional(kept->count()) : std::nullopt},
                       reading.paper, reading.scheme);
    };
    try {
        if (options.yes || !context.json)
            kept = kept_pictures(context, options, reading, by_hand);
    } catch (const Error&) {
        if (context.json)
            context.out << document() << '\n';
        throw;
    }
    context.answer(document, [&] {
        context.out << "\nStored paper " << options.head.id << " with "
                    << count_text(kept->count(), "picture") << ".\nNext: inkturn picture list\n";
    });
}

} // namespace

void add_paper_read(Command& group) {
    auto options = std::make_shared<PaperReadOptions>();
    Command read = group.command("read", "Read a paper from a PDF: parts, marks, pictures of questions");
    read.argument("FILE", options->file, "The question paper, a PDF; - is standard input").required();
    read.option("--id", options->head.id, "ID", "The id to give it: lower-case letters, digits, . _ -");
    options->head.add_to(read);
    read.option("--scheme", options->scheme, "FILE.pdf", "Its mark scheme, for codes and pictures");
    const Option csv = read.option("--csv", options->csv.file, "FILE|-",
                                   "Write the parts as CSV to correct by hand; store nothing");
    read.flag("--force", options->csv.force, "Overwrite an existing file").needs(csv);
    const Option parts =
        read.option("--parts", options->corrected, "FILE", "The corrected parts: a file as for paper add")
            .excludes(csv);
    read.option("--sheet", options->table.sheet, "NAME",
                "Its sheet, if it is a workbook and several have content")
        .needs(parts);
    const Option yes =
        read.flag("--yes", options->yes, "Don't ask; refuse if anything is in doubt").excludes(csv);
    read.flag("--with-doubts", options->with_doubts, "With --yes: store it despite doubts").needs(yes);
    read.json("Print JSON; stores nothing without --yes").excludes(csv);
    read.closing("Example:\n  inkturn paper read pure-1.pdf --id pure-1 --scheme pure-1-scheme.pdf\n"
                 "Needs the programs pdftotext and pdftoppm from poppler, and for scans tesseract.");
    read.runs(options, run);
}

} // namespace inkturn
