#!/usr/bin/env python3
"""Checks a SARIF log against the published schema, and against what only the standard's text asks.

validate_sarif.py LOG.sarif: says what is wrong and exits with 1, or says nothing and exits with 0.
"""
import json
import pathlib
import re
import sys

import jsonschema

SCHEMA = pathlib.Path(__file__).with_name("sarif-2.1.0-rtm.5.json")


def places(result):
    for kind in ("locations", "relatedLocations"):
        for location in result.get(kind, []):
            if "physicalLocation" in location:
                yield location["physicalLocation"]


def beyond_schema(run):
    """Rules of the text; section numbers are those of SARIF 2.1.0."""
    rules = run["tool"]["driver"]["rules"]
    ids = [rule["id"] for rule in rules]
    if len(set(ids)) != len(ids):
        yield "two rules have one id (3.49.3)"
    bases = run.get("originalUriBaseIds", {})
    for name, base in bases.items():
        if not re.match(r"[a-z][a-z0-9+.-]*:", base.get("uri", "file:")):
            yield f"{name} is no absolute URI (3.14.14)"
        if not base.get("uri", "/").endswith("/"):
            yield f"{name} does not end with a slash (3.14.14)"
    suppressed = ["suppressions" in result for result in run["results"]]
    if any(suppressed) and not all(suppressed):
        yield "some results have suppressions and some have none at all (3.27.23)"
    prints = [json.dumps(result["partialFingerprints"]) for result in run["results"]]
    if len(set(prints)) != len(prints):
        yield "two results have one fingerprint"
    for result in run["results"]:
        where = f"{result['ruleId']}: "
        if rules[result["ruleIndex"]]["id"] != result["ruleId"]:
            yield where + "ruleIndex is another rule's (3.27.6)"
        texts = [result["message"]["text"]]
        texts += [related["message"]["text"] for related in result.get("relatedLocations", [])]
        for text in texts:
            if re.sub(r"\{\{|\}\}", "", text).strip("{}") != re.sub(r"\{\{|\}\}", "", text):
                yield where + "a single brace in a message (3.11.5)"
        numbers = [related["id"] for related in result.get("relatedLocations", [])]
        if len(set(numbers)) != len(numbers):
            yield where + "two related locations have one id (3.28.2)"
        for place in places(result):
            artifact = place["artifactLocation"]
            if not re.fullmatch(r"(?:[A-Za-z0-9._~/:-]|%[0-9A-F]{2})+", artifact["uri"]):
                yield where + artifact["uri"] + " is not percent-encoded (3.4.3)"
            if "uriBaseId" in artifact:
                if artifact["uriBaseId"] not in bases:
                    yield where + "a base that the run does not give (3.4.4)"
                if artifact["uri"].startswith("/"):
                    yield where + "not relative to its base (3.4.4)"
            region = place.get("region")
            if region and "endLine" in region:
                start = (region["startLine"], region["startColumn"])
                if (region["endLine"], region["endColumn"]) < start:
                    yield where + "a region that ends before it starts (3.30)"


def main(path):
    log = json.loads(pathlib.Path(path).read_text(encoding="utf-8"))
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    validator = jsonschema.Draft4Validator(schema, format_checker=jsonschema.FormatChecker())
    wrong = [f"{list(e.absolute_path)}: {e.message}" for e in validator.iter_errors(log)]
    if not wrong and log["$schema"] != schema["id"]:
        wrong = ["$schema names another schema than this"]
    if not wrong:
        wrong = [words for run in log["runs"] for words in beyond_schema(run)]
    for words in wrong:
        print(words)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
