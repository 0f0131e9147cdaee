"""A folder of jobs: sub-folders that share the people.yaml above them."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from jobs_folder import PEOPLE, job_folder

from sequencer.files import job_folders, read_job, read_jobs
from sequencer.terms.place import Faulty, Place

TODAY = date(2026, 3, 2)


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """A folder of two jobs and a job that has people of its own."""
    job_folder(tmp_path, "mill-lane", "orchard-row", "far-away")
    (tmp_path / "far-away" / "people.yaml").write_text(PEOPLE, encoding="utf-8")
    (tmp_path / "letters").mkdir()
    return tmp_path


def test_jobs_that_read_the_same_people_stand_beside_each_other(site: Path) -> None:
    assert [folder.name for folder in job_folders(site)] == ["mill-lane", "orchard-row"]
    assert [job.name for job in read_jobs(site, TODAY)] == ["mill-lane", "orchard-row"]
    job = read_job(site / "mill-lane", TODAY)
    assert [other.name for other in job.beside] == ["orchard-row"]
    assert job.shared == job.beside[0].shared == {"you", "plumber"}
    assert read_job(site / "mill-lane" / "job.yaml", TODAY) == job


@pytest.mark.parametrize("name", ["far-away", "mill-lane/attic.yaml"])
def test_a_job_with_people_or_a_file_of_its_own_stands_alone(site: Path, name: str) -> None:
    text = (site / "mill-lane" / "job.yaml").read_text("utf-8")
    (site / "mill-lane" / "attic.yaml").write_text(text, encoding="utf-8")
    assert read_job(site / name, TODAY).beside == ()


def test_without_people_to_share_a_folder_holds_no_jobs(site: Path) -> None:
    (site / "people.yaml").unlink()
    assert job_folders(site) == ()
    assert read_job(site / "mill-lane", TODAY).beside == ()


def test_a_job_in_the_folder_itself_is_that_job(site: Path) -> None:
    (site / "job.yaml").write_text((site / "mill-lane" / "job.yaml").read_text("utf-8"), encoding="utf-8")
    assert job_folders(site) == ()


def test_every_fault_of_every_job_is_told_with_its_folder(site: Path) -> None:
    for name in ("mill-lane", "orchard-row"):
        file = site / name / "job.yaml"
        file.write_text(file.read_text("utf-8").replace("      bed:", "      bad:"), encoding="utf-8")
    with pytest.raises(Faulty) as faulty:
        read_jobs(site, TODAY)
    assert {fault.place.file for fault in faulty.value.faults} == {"mill-lane/job.yaml", "orchard-row/job.yaml"}
    with pytest.raises(Faulty) as faulty:
        read_job(site / "mill-lane", TODAY)
    assert {fault.place.file for fault in faulty.value.faults} == {"job.yaml", "../orchard-row/job.yaml"}


def test_a_fault_in_the_people_they_share_is_told_once(site: Path) -> None:
    (site / "people.yaml").write_text(PEOPLE.replace("hands: 2", "hands: many"), encoding="utf-8")
    with pytest.raises(Faulty) as faulty:
        read_jobs(site, TODAY)
    assert [fault.place for fault in faulty.value.faults] == [Place("people.yaml", 4, 20)]


def test_a_question_to_one_job_names_the_jobs_of_the_folder(site: Path) -> None:
    with pytest.raises(Faulty) as faulty:
        read_job(site, TODAY)
    assert str(faulty.value).endswith("is asked of one; name one of them: mill-lane, orchard-row")


def test_each_job_has_a_name_of_its_own(site: Path) -> None:
    file = site / "orchard-row" / "job.yaml"
    file.write_text(file.read_text("utf-8").replace("job: orchard-row", "job: mill-lane"), encoding="utf-8")
    with pytest.raises(Faulty) as faulty:
        read_jobs(site, TODAY)
    assert str(faulty.value) == (
        'orchard-row/job.yaml:2:1: "mill-lane" is the name of another job of this folder; '
        "give each job a name of its own"
    )
