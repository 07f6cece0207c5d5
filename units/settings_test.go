package units_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"example.com/lapspan/units"
	"github.com/shopspring/decimal"
)

// Another package in a program may change the package variables of decimal. Nothing here may change
// with them.
func TestDecimalSettingsChangeNothing(t *testing.T) {
	everything := func() string {
		price, density := units.MustMoney("1234.50"), units.MustMass("2500.0")
		area := units.AreaOf(905*mm, 2300*mm)
		glass := units.SheetMass(area, 4*mm, density)
		third, errThird := price.PerMetre(333_333_333).Round(2, units.HalfEven)
		fixed, errFixed := third.Fixed(4)
		count, errCount := price.TenThousandths()
		rounded, errRounded := glass.Round(1, units.Up)
		data, errJSON := json.Marshal([]any{price, price.Mul(1000), third, glass, glass.Mul(1_000_000), area, rounded})
		var money units.Money
		var mass units.Mass
		errMoney := json.Unmarshal([]byte(`"1000.10"`), &money)
		errMass := json.Unmarshal([]byte(`1000.10`), &mass)
		_, errExponent := units.ParseMoney("1e3")
		return fmt.Sprintln(price, price.Mul(1000), price.PerMetre(1), price.PerSquareMetre(area), third, errThird, fixed, errFixed,
			count, errCount, area, area.Mul(1_000_000), glass, glass.Mul(1_000_000), rounded, errRounded, string(data), errJSON,
			money, errMoney, mass, errMass, errExponent, price.Cmp(third), price.Equal(third))
	}
	want := everything()

	precision, quotes, trim, science, exponent, power := decimal.DivisionPrecision, decimal.MarshalJSONWithoutQuotes,
		decimal.TrimTrailingZeros, decimal.UseScientificNotation, decimal.MaxDecodeExponent, decimal.PowPrecisionNegativeExponent
	zero, iterations := decimal.Zero, decimal.ExpMaxIterations
	t.Cleanup(func() {
		decimal.DivisionPrecision, decimal.MarshalJSONWithoutQuotes, decimal.TrimTrailingZeros = precision, quotes, trim
		decimal.UseScientificNotation, decimal.MaxDecodeExponent, decimal.PowPrecisionNegativeExponent = science, exponent, power
		decimal.Zero, decimal.ExpMaxIterations = zero, iterations
	})
	for _, on := range []bool{true, false} {
		decimal.DivisionPrecision, decimal.MaxDecodeExponent, decimal.PowPrecisionNegativeExponent, decimal.ExpMaxIterations = 1, 1, 1, 1
		decimal.MarshalJSONWithoutQuotes, decimal.TrimTrailingZeros, decimal.UseScientificNotation = on, on, on
		decimal.Zero = decimal.New(7, 0)
		if got := everything(); got != want {
			t.Errorf("with the settings %v:\n%swant:\n%s", on, got, want)
		}
	}
}
