package units_test

import (
	"encoding/json"
	"errors"
	"fmt"

	"example.com/lapspan/units"
)

// Three battens of 2400 mm at 1.15 a metre.
func ExampleMoney() {
	line := units.MustMoney("1.15").PerMetre(2400 * units.Millimetre).Mul(3)
	rounded, err := line.Round(2, units.HalfEven)
	fmt.Println(line, rounded, err)
	// Output:
	// 8.28 8.28 <nil>
}

func ExampleParseMoney() {
	price, err := units.ParseMoney("129.90")
	fmt.Println(price, err)

	_, err = units.ParseMoney("129,90")
	fmt.Println(err)
	// Output:
	// 129.9 <nil>
	// cannot read "129,90": a comma may mean thousands or a decimal: write 2400 or 2.4 (at byte 3)
}

func ExampleMustMoney() {
	fmt.Println(units.MustMoney("129.90"))
	// Output:
	// 129.9
}

func ExampleMoneyOfTenThousandths() {
	fmt.Println(units.MoneyOfTenThousandths(125_000))
	// Output:
	// 12.5
}

func ExampleMoney_TenThousandths() {
	n, err := units.MustMoney("12.5").TenThousandths()
	fmt.Println(n, err)

	_, err = units.MustMoney("0.15").PerMetre(units.Micrometre).TenThousandths()
	fmt.Println(errors.Is(err, units.ErrInexact))
	// Output:
	// 125000 <nil>
	// true
}

func ExampleMoney_Add() {
	fmt.Println(units.MustMoney("129.90").Add(units.MustMoney("0.10")))
	// Output:
	// 130
}

func ExampleMoney_Mul() {
	fmt.Println(units.MustMoney("129.90").Mul(4))
	// Output:
	// 519.6
}

func ExampleMoney_PerMetre() {
	fmt.Println(units.MustMoney("3.2").PerMetre(2400 * units.Millimetre))
	// Output:
	// 7.68
}

func ExampleMoney_PerSquareMetre() {
	door := units.AreaOf(900*units.Millimetre, 2300*units.Millimetre)
	fmt.Println(units.MustMoney("45.50").PerSquareMetre(door))
	// Output:
	// 94.185
}

func ExampleMoney_Round() {
	exact := units.MustMoney("94.185")
	even, _ := exact.Round(2, units.HalfEven)
	up, _ := exact.Round(2, units.HalfUp)
	fmt.Println(even, up)
	// Output:
	// 94.18 94.19
}

func ExampleMoney_Cmp() {
	fmt.Println(units.MustMoney("12.5").Cmp(units.MustMoney("12.49")))
	// Output:
	// 1
}

func ExampleMoney_Equal() {
	fmt.Println(units.MustMoney("12.5").Equal(units.MustMoney("12.50")))
	// Output:
	// true
}

func ExampleMoney_IsZero() {
	fmt.Println(units.Money{}.IsZero(), units.MustMoney("0.0001").IsZero())
	// Output:
	// true false
}

func ExampleMoney_String() {
	fmt.Println(units.MustMoney("12.50").String())
	// Output:
	// 12.5
}

func ExampleMoney_Fixed() {
	text, err := units.MustMoney("12.5").Fixed(2)
	fmt.Println(text, err)

	_, err = units.MustMoney("12.345").Fixed(2)
	fmt.Println(errors.Is(err, units.ErrInexact))
	// Output:
	// 12.50 <nil>
	// true
}

func ExampleMoney_AppendText() {
	b, err := units.MustMoney("12.5").AppendText([]byte("price "))
	fmt.Println(string(b), err)
	// Output:
	// price 12.5 <nil>
}

func ExampleMoney_MarshalText() {
	text, err := units.MustMoney("12.50").MarshalText()
	fmt.Println(string(text), err)
	// Output:
	// 12.5 <nil>
}

func ExampleMoney_UnmarshalText() {
	var price units.Money
	fmt.Println(price.UnmarshalText([]byte("12.50")), price)
	// Output:
	// <nil> 12.5
}

func ExampleMoney_MarshalJSON() {
	out, err := json.Marshal(map[string]units.Money{"price": units.MustMoney("12.50")})
	fmt.Println(string(out), err)
	// Output:
	// {"price":"12.5"} <nil>
}

func ExampleMoney_UnmarshalJSON() {
	var prices []units.Money
	fmt.Println(json.Unmarshal([]byte(`[12.5, "12.50"]`), &prices), prices)
	fmt.Println(json.Unmarshal([]byte(`[1e3]`), &prices))
	// Output:
	// <nil> [12.5 12.5]
	// cannot read "1e3": an exponent is not taken (at byte 1)
}
