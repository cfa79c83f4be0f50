#include "exchange/document/bank.hpp"

#include "exchange/document/strict_json.hpp"
#include "exchange/json/value.hpp"
#include "exchange/picture/picture.hpp"
#include "inkturn/base/base64.hpp"
#include "inkturn/base/text.hpp"

#include <algorithm>
#include <tuple>

namespace inkturn {
namespace {

bool is_of(const Document& document, const PrintedSet& set) {
    if (!set.of_class.empty())
        return std::find(document.classes.begin(), document.classes.end(), set.of_class) !=
               document.classes.end();
    return !set.candidate.empty() &&
           std::any_of(document.candidates.begin(), document.candidates.end(),
                       [&](const ExportedCandidate& one) { return one.candidate.code == set.candidate; });
}

bool has_paper(const Document& document, const std::string& id) {
    return std::any_of(document.papers.begin(), document.papers.end(),
                       [&](const auto& paper) { return paper->id() == id; });
}

Json value_of(const TopicList& list) {
    Json topics = Json::array();
    for (const ListedTopic& listed : list.topics())
        topics.push_back({{"topic", listed.topic}, {"parent", null_if_empty(listed.parent)}});
    return topics;
}

Json value_of(const PrintedSet& set) {
    return {{"paper", set.paper},
            {"date", iso(set.day)},
            {"candidate", null_if_empty(set.candidate)},
            {"class", null_if_empty(set.of_class)}};
}

Json value_of(const ExportedPicture& picture) {
    return {{"paper", picture.paper},
            {"question", picture.question},
            {"shows", name(picture.content)},
            {"bytes", base64(picture.picture.bytes)}};
}

void add_words(const Document& document, Json& json) {
    for (Json& paper : json["papers"]) {
        const std::string id = paper["paper"].get<std::string>();
        if (document.kept_unseen.count(id) > 0)
            paper["keep_unseen"] = true;
        const auto words = document.words.find(id);
        for (Json& part : paper["parts"])
            if (words != document.words.end())
                if (const auto found = words->second.find(part["part"].get<std::string>());
                    found != words->second.end())
                    part["words"] = found->second;
    }
}

std::string text_if_any(const JsonValue& value) {
    return value.is_null() ? std::string() : value.text();
}

TopicList read_topic_list(const JsonValue& value) {
    std::vector<ListedTopic> topics;
    value.each_element([&](const JsonValue& listed) {
        listed.check_keys({"topic", "parent"});
        topics.push_back({listed.at("topic").name(), text_if_any(listed.at("parent"))});
    });
    TopicList list = value.checked([&] { return TopicList(std::move(topics)); });
    if (list.empty())
        value.refuse("there are no topics: leave the subject out");
    return list;
}

void read_topic_lists(const JsonValue& value, Document& document) {
    value.each_element([&](const JsonValue& one) {
        one.check_keys({"subject", "topics"});
        const JsonValue subject = one.at("subject");
        subject.checked([&] { check_printable(subject.name(), 200, "subject"); });
        if (!document.topic_lists.emplace(subject.text(), read_topic_list(one.at("topics"))).second)
            subject.refuse("the subject appears twice");
    });
}

PrintedSet read_set(const JsonValue& value, const PapersById& papers, const Document& document) {
    value.check_keys({"paper", "date", "candidate", "class"});
    PrintedSet set{get_paper(papers, value.at("paper"))->id(), read_day(value.at("date")),
                   text_if_any(value.at("candidate")), text_if_any(value.at("class"))};
    if (!set.candidate.empty() && !set.of_class.empty())
        value.refuse("a set is for a candidate or a class, not for both");
    if (!is_of(document, set)) { // an export may hold a set for somebody of whom it holds nothing else
        set.candidate.clear();
        set.of_class.clear();
    }
    return set;
}

void read_sets(const JsonValue& value, const PapersById& papers, Document& document) {
    std::set<std::string> known;
    value.each_element([&](const JsonValue& one) {
        document.sets.push_back(read_set(one, papers, document));
        if (!known.insert(document.sets.back().paper).second)
            one.refuse("the set appears twice");
    });
    std::sort(document.sets.begin(), document.sets.end(), [](const PrintedSet& a, const PrintedSet& b) {
        return std::tie(a.day, a.paper) < std::tie(b.day, b.paper);
    });
}

ExportedPicture read_picture_of(const JsonValue& value, const PapersById& papers) {
    value.check_keys({"paper", "question", "shows", "bytes"});
    const auto& paper = get_paper(papers, value.at("paper"));
    const JsonValue question = value.at("question");
    const JsonValue shows = value.at("shows");
    const auto content = picture_content_named(shows.text());
    if (!content)
        shows.refuse("write question or scheme");
    const auto bytes = read_base64(value.at("bytes").text());
    if (!bytes)
        value.at("bytes").refuse("it is not base64");
    return {paper->id(), question.checked([&] { return picture_label(*paper, question.text()); }), *content,
            value.at("bytes").checked([&] { return read_picture(*bytes); })};
}

/// Merges the bank of a document.
class BankMerge {
  public:
    BankMerge(Store::Change& change, const Document& document, const MergeOptions& options, Merge& merge)
        : change_(change),
          store_(change.store()),
          document_(document),
          options_(options),
          merge_(merge),
          bank_(change) {}

    void take() {
        take_words();
        if (!options_
                 .own_plan) { // what a candidate's own store says of papers and topics changes nothing here
            take_kept_unseen();
            for (const auto& [subject, list] : document_.topic_lists)
                take_list(subject, list);
        }
        take_sets();
        take_pictures();
    }

  private:
    void take_words() {
        const std::map<std::string, PartWords> here = QuestionBank::words(store_);
        for (const auto& [id, words] : document_.words)
            if (const auto paper = store_.find_paper(id))
                take_words(*paper, words, here);
    }

    void take_kept_unseen() {
        const std::set<std::string> kept = QuestionBank::kept_unseen(store_);
        for (const std::string& id : document_.kept_unseen)
            if (kept.count(id) == 0 && store_.find_paper(id)) {
                bank_.set_kept_unseen(id, true);
                ++merge_.papers_kept_unseen;
            }
    }

    /// Those that are not known here.
    void take_words(const Paper& paper, PartWords words, const std::map<std::string, PartWords>& here) {
        const auto known = here.find(paper.id());
        for (auto one = words.begin(); one != words.end();)
            if (!paper.find_part(one->first) || (known != here.end() && known->second.count(one->first) > 0))
                one = words.erase(one);
            else
                ++one;
        bank_.set_words(paper.id(), words);
    }

    /// Topics that only the document has are put behind those here.
    void take_list(const std::string& subject, const TopicList& in_file) {
        const TopicList here = TopicLists::of(store_, subject);
        if (here.topics() == in_file.topics())
            return;
        std::vector<ListedTopic> all = options_.replace ? in_file.topics() : here.topics();
        const TopicList& others = options_.replace ? here : in_file;
        for (const ListedTopic& one : others.topics()) {
            const auto known = TopicList(names_of(all)).find_alike(one.topic);
            if (!known)
                all.push_back(one);
            else if (!options_.replace && !(all[*known] == one))
                refuse(subject, all[*known], one);
        }
        try {
            TopicLists(change_).keep(subject, TopicList(all));
            merge_.topics_listed += all.size() - here.topics().size();
        } catch (const Error& error) {
            merge_.conflicts.push_back(error.within("topics of " + subject + ": "));
        }
    }

    static std::vector<ListedTopic> names_of(const std::vector<ListedTopic>& topics) {
        std::vector<ListedTopic> names;
        for (const ListedTopic& one : topics)
            names.push_back({one.topic});
        return names;
    }

    void refuse(const std::string& subject, const ListedTopic& here, const ListedTopic& in_file) {
        const auto said = [](const ListedTopic& one) {
            return "'" + one.topic + "'" + (one.parent.empty() ? "" : ", a piece of '" + one.parent + "',");
        };
        merge_.refuse("topics of " + subject + ": " + said(here) + " is here what is " + said(in_file) +
                      " in the file; --replace takes the file's");
    }

    void take_sets() {
        std::set<std::string> known;
        for (const PrintedSet& set : PrintedSets::all(store_))
            known.insert(set.paper);
        for (PrintedSet set : document_.sets) {
            if (!set.candidate.empty() && options_.as)
                set.candidate = *options_.as;
            if (!store_.find_paper(set.paper) || !known.insert(set.paper).second)
                continue;
            PrintedSets(change_).keep(set);
            ++merge_.sets_added;
        }
    }

    void take_pictures() {
        std::set<std::tuple<std::string, std::string, PictureContent>> known;
        for (const PictureOnFile& picture : store_.pictures())
            known.emplace(picture.paper, picture.question, picture.content);
        for (const ExportedPicture& one : document_.pictures) {
            const auto paper = store_.find_paper(one.paper);
            if (!paper || known.count({one.paper, one.question, one.content}) > 0)
                continue;
            change_.add_picture(*paper, one.question, one.content, one.picture);
            ++merge_.pictures_added;
        }
    }

    Store::Change& change_;
    const Store& store_;
    const Document& document_;
    const MergeOptions& options_;
    Merge& merge_;
    QuestionBank bank_;
};

} // namespace

void add_bank(const Store& store, bool all, Document& document) {
    document.topic_lists = TopicLists::all(store);
    const std::set<std::string> kept = QuestionBank::kept_unseen(store);
    std::map<std::string, PartWords> words = QuestionBank::words(store);
    for (const auto& paper : document.papers) {
        if (kept.count(paper->id()) > 0)
            document.kept_unseen.insert(paper->id());
        if (const auto found = words.find(paper->id()); found != words.end())
            document.words.insert(*found);
    }
    for (const PrintedSet& set : PrintedSets::all(store))
        if ((all || is_of(document, set)) && has_paper(document, set.paper))
            document.sets.push_back(set);
    std::sort(document.sets.begin(), document.sets.end(), [](const PrintedSet& a, const PrintedSet& b) {
        return std::tie(a.day, a.paper) < std::tie(b.day, b.paper);
    });
}

void add_pictures(const Store& store, const std::optional<std::set<std::string>>& ids, Document& document) {
    for (const PictureOnFile& picture : store.pictures())
        if ((!ids || ids->count(picture.paper) > 0) && has_paper(document, picture.paper))
            document.pictures.push_back(
                {picture.paper, picture.question, picture.content, *store.picture(picture.id)});
    std::stable_sort(document.pictures.begin(), document.pictures.end(),
                     [](const ExportedPicture& a, const ExportedPicture& b) {
                         return std::tie(a.paper, a.question, a.content) <
                                std::tie(b.paper, b.question, b.content);
                     });
}

void add_bank(const Document& document, Json& json) {
    add_words(document, json);
    for (const auto& [subject, list] : document.topic_lists)
        json["topic_lists"].push_back({{"subject", subject}, {"topics", value_of(list)}});
    for (const PrintedSet& set : document.sets)
        json["sets"].push_back(value_of(set));
    for (const ExportedPicture& picture : document.pictures)
        json["pictures"].push_back(value_of(picture));
}

void read_paper_of_bank(const JsonValue& value, const Paper& paper, Document& document) {
    if (value.has("keep_unseen") && value.at("keep_unseen").yes_or_no())
        document.kept_unseen.insert(paper.id());
    value.at("parts").each_element([&](const JsonValue& part) {
        if (!part.has("words"))
            return;
        const JsonValue words = part.at("words");
        words.checked([&] { check_printable(words.text(), max_part_words, "words"); });
        if (words.text().empty())
            words.refuse("there are none: leave the key out");
        document.words[paper.id()][part.at("part").text()] = words.text();
    });
}

void read_bank(const JsonValue& root, const PapersById& papers, Document& document) {
    if (root.has("topic_lists"))
        read_topic_lists(root.at("topic_lists"), document);
    if (root.has("sets"))
        read_sets(root.at("sets"), papers, document);
    if (root.has("pictures"))
        root.at("pictures").each_element([&](const JsonValue& picture) {
            document.pictures.push_back(read_picture_of(picture, papers));
        });
}

void take_bank(Store::Change& change, const Document& document, const MergeOptions& options, Merge& merge) {
    BankMerge(change, document, options, merge).take();
}

} // namespace inkturn
