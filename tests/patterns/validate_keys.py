#!/usr/bin/env python3
"""Holds the schemas against files and maps, with what the compiler says of them.

validate_keys.py BATCH.json: says what is wrong and exits with 1, or says nothing and exits with 0.
Each value is looked at as the compiler has it, all texts, and as an editor has it, with the types
of YAML 1.2; whole files also with those of YAML 1.1, where `yes` is no text.
"""
import json
import re
import sys

import jsonschema
import yaml

WHOLE = re.compile(r"[-+]?[0-9]+")
DECIMAL = re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?")
TRUTH = {"true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False}


class Texts(yaml.BaseLoader):
    """Only plain scalars have types; quoted ones are marked, so that they stay texts."""


class Quoted(str):
    pass


def scalar(loader, node):
    return Quoted(node.value) if node.style else node.value


Texts.add_constructor("tag:yaml.org,2002:str", scalar)


def typed(value):
    """The value with the types of YAML 1.2's core schema."""
    if isinstance(value, dict):
        return {key: typed(part) for key, part in value.items()}
    if isinstance(value, list):
        return [typed(part) for part in value]
    if isinstance(value, str) and not isinstance(value, Quoted):
        if WHOLE.fullmatch(value):
            return int(value)
        if DECIMAL.fullmatch(value):
            return float(value)
        return TRUTH.get(value, value)
    return value


def main(path):
    with open(path, encoding="utf-8") as file:
        batch = json.load(file)
    wrong = []
    validators = {}

    def validator(kind, table):
        if (kind, table) not in validators:
            schema = batch["schemas"][kind]
            if table:
                schema = {"$ref": "#/$defs/" + table, "$defs": schema["$defs"]}
            validators[kind, table] = jsonschema.Draft202012Validator(schema)
        return validators[kind, table]

    def faults(kind, table, value):
        return [f"{list(e.absolute_path)}: {e.message[:200]}"
                for e in validator(kind, table).iter_errors(value)]

    for kind, schema in batch["schemas"].items():
        jsonschema.Draft202012Validator.check_schema(schema)
        if schema["$schema"] != jsonschema.Draft202012Validator.META_SCHEMA["$id"]:
            wrong.append(f"{kind}: another $schema")
        for name, table in [("", schema), *schema.get("$defs", {}).items()]:
            for key, said in table["properties"].items():
                alone = {"$ref": "#/x", "$defs": schema.get("$defs", {}), "x": said}
                check = jsonschema.Draft202012Validator(alone)
                for value in said["examples"] + ([said["default"]] if "default" in said else []):
                    wrong += [f"{kind} {name} {key}: {e.message}" for e in check.iter_errors(value)]

    for each in batch["files"]:
        text = each["text"]
        texts = yaml.load(text, Loader=Texts)
        for form, value in (("texts", texts), ("YAML 1.2", typed(texts)),
                            ("YAML 1.1", yaml.safe_load(text))):
            for fault in faults(each["kind"], "", value):
                wrong.append(f"{each['path']} ({form}): {fault}")

    refused = taken = 0
    for each in batch["maps"]:
        value = each["value"]
        where = f"{each['kind']} {each['table']}, {each['how']}"
        found = faults(each["kind"], each["table"], value)
        if each["errors"]:
            refused += 1
            taken += not found
        else:
            for fault in found + faults(each["kind"], each["table"], typed(value)):
                wrong.append(f"{where}: the compiler takes it, the schema says {fault}")
        if each["surely refused"] and not found:
            wrong.append(f"{where}: the schema takes it")
        if each["surely refused"] and not each["errors"]:
            wrong.append(f"{where}: the compiler takes it")
    # What lies between two keys, or behind a name, a schema cannot know; most it can.
    if refused < 1000 or taken * 2 > refused:
        wrong.append(f"of {refused} faulty maps the schemas take {taken}")
    print(f"{len(batch['files'])} files, {len(batch['maps'])} maps; of {refused} faulty ones "
          f"{refused - taken} are refused by the schemas")
    for words in wrong[:40]:
        print(words)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
