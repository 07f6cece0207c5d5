package lapspan

import "example.com/lapspan/opening"

// SurveyForm returns the questions to ask in the room of a job, in the order in
// which one works: those whose answers change what Propose says of it, given
// what the job wants of the opening. The readings that the job has are not looked at.
func SurveyForm(job Job) []opening.Question {
	panels := false
	for _, k := range []*opening.Skirting{job.Opening.Skirting.Left, job.Opening.Skirting.Right} {
		panels = panels || k == nil || k.Treatment != opening.CutBack
	}
	return opening.Form(opening.Intent{
		Interior:  job.Interior != nil && job.Gear.Depth > 0,
		Head:      job.Timber != nil || len(job.Boards) > 0,
		EndPanels: panels,
	})
}
