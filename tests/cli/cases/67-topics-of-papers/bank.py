"""Prints an export of four invented papers with the words of their parts; the last one has no topics."""
import json

WORDS = {
    "vectors": ["The points A and B have position vectors", "Find the angle between the lines through A and B",
                "Show that the triangle ABC is isosceles using position vectors", "Find the position vector of D"],
    "series": ["A geometric series has first term 8", "Find the sum to infinity of the series",
               "The third term of an arithmetic series is 11", "Find the number of terms in the arithmetic series"],
    "Integration": ["Use integration by parts to find the area", "Evaluate the integral between limits",
                    "Find the area under the curve by integration", "Hence evaluate the definite integral"],
}
papers = []
for number in range(4):
    parts = []
    for place, topic in enumerate(("vectors", "series", "Integration")):
        for half in range(2):
            named = topic.lower() if number == 1 and topic == "Integration" else topic
            if number == 2 and topic == "vectors":
                named = "vectros"
            parts.append({"part": f"{place + 1}{'ab'[half]}", "marks": 3 + half, "topic": named if number < 3 else "",
                          "codes": "", "words": WORDS[topic][(number + 2 * half) % 4]})
    parts.append({"part": "4", "marks": 5, "topic": "moments" if number == 0 else "", "codes": "",
                  "words": "A particle moves with constant speed"})
    papers.append({"paper": f"pure-{number + 1}", "title": "", "subject": "pure", "duration_seconds": None,
                   "retry_by": "question", "parts": parts})
print(json.dumps({"format": "inkturn export", "version": 2, "papers": papers, "candidates": [], "exams": [],
                  "classes": []}))
